/**
 * Soften the edge of a mask by a pixel, for sharp cuts through grain show as lines.
 *
 * @param mask - 0 or 1, row by row.
 * @param width - Columns.
 * @returns Means over three pixels by three; past its sides the sides are held.
 */
export function softenMask(mask: Uint8Array, width: number): Float32Array {
  const rows = new Float32Array(mask.length);
  const shares = new Float32Array(mask.length);
  for (let start = 0; start < mask.length; start += width) {
    const last = start + width - 1;
    rows[start] = (2 * mask[start]! + mask[Math.min(last, start + 1)]!) / 9;
    for (let i = start + 1; i < last; i++) rows[i] = (mask[i - 1]! + mask[i]! + mask[i + 1]!) / 9;
    rows[last] = (2 * mask[last]! + mask[Math.max(start, last - 1)]!) / 9;
  }
  const lastRow = mask.length - width;
  for (let start = 0; start <= lastRow; start += width) {
    const above = start > 0 ? -width : 0;
    const below = start < lastRow ? width : 0;
    for (let i = start, end = start + width; i < end; i++) {
      shares[i] = rows[i + above]! + rows[i]! + rows[i + below]!;
    }
  }
  return shares;
}
