/**
 * Round colours to bytes, each to the nearest.
 *
 * @param colours - As encoded in sRGB, 0 to 1; what lies outside is clipped.
 * @param out - Filled from its first byte on; as long, or longer.
 */
export function roundColours(colours: Float32Array, out: Uint8Array): void {
  for (let i = 0; i < colours.length; i++) {
    const level = (255 * colours[i]! + 0.5) | 0;
    out[i] = level < 0 ? 0 : level > 255 ? 255 : level;
  }
}
