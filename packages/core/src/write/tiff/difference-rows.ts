/**
 * Put the difference from the pixel to the left in each pixel's place, in place: brick and sky
 * alike then compress better.
 *
 * @param bytes - RGBRGB…, whole rows.
 * @param stride - Bytes of a row.
 * @see TIFF 6.0, section 14: differencing predictor
 */
export function differenceRows(bytes: Uint8Array, stride: number): void {
  for (let end = bytes.length; end > 0; end -= stride) {
    const first = end - stride + 3;
    // From the right, so that what is still needed stands yet.
    for (let i = end - 1; i >= first; i--) bytes[i]! -= bytes[i - 3]!;
  }
}
