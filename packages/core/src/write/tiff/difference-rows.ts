/**
 * Put the difference from the pixel to the left in each pixel's place, in place: brick and sky
 * alike then compress better.
 *
 * @param bytes - RGBRGB… or RGBARGBA…, whole rows.
 * @param stride - Bytes of a row.
 * @param channels - Bytes of a pixel.
 * @see TIFF 6.0, section 14: differencing predictor
 */
export function differenceRows(bytes: Uint8Array, stride: number, channels: number): void {
  for (let end = bytes.length; end > 0; end -= stride) {
    const first = end - stride + channels;
    // From the right, so that what is still needed stands yet.
    for (let i = end - 1; i >= first; i--) bytes[i]! -= bytes[i - channels]!;
  }
}
