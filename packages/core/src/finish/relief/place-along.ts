// What the last digits of a number make of a length that holds a whole number of pitches.
const slack = 1e-9;

/**
 * Place things along a length at a pitch, as many as it holds, the same left over at both ends.
 *
 * @param length - From end to end.
 * @param pitch - From the middle of one to the middle of the next.
 * @param size - Of each.
 * @returns Where their middles lie, from the left.
 */
export function placeAlong(length: number, pitch: number, size: number): readonly number[] {
  if (length < size) return [];
  const gaps = Math.floor((length - size) / pitch + slack);
  const first = (length - gaps * pitch) / 2;
  return Array.from({ length: gaps + 1 }, (_, i) => first + i * pitch);
}
