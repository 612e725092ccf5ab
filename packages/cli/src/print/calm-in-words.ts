import type { MendedPhoto } from '@gaugerod/core';

/**
 * Word what was done about odd places.
 *
 * @param calmed - Which were replaced and which are left, or null where nobody asked.
 * @returns One line for each, after a line that counts them; or null.
 */
export function calmInWords(calmed: MendedPhoto['calmed']): string | null {
  if (calmed === null) return null;
  const { swapped, left } = calmed;
  if (swapped.length + left.length === 0) return 'nothing catches the eye';
  const rest = left.length > 0 ? `, ${left.length} left` : '';
  const where = swapped.map(
    ({ way, x, y, width, height, from }) =>
      `a ${way} place, ${width} x ${height} px at ${x},${y}, by that at ${from.x},${from.y}`,
  );
  return [`${swapped.length} replaced${rest}`, ...where].join('; ');
}
