/**
 * Word a length for people: metres from one metre up, millimetres below.
 *
 * @param mm - Millimetres, 0 or more.
 * @param digits - Digits that count, 1 to 15; whole numbers are never cut.
 * @returns `9.9 m`, `67 mm`, `0.372 mm`; a text that {@link parseRealLength} takes.
 */
export function formatLength(mm: number, digits = 4): string {
  const [value, unit] = mm >= 1000 ? [mm / 1000, 'm'] : [mm, 'mm'];
  const whole = value < 1 ? Math.ceil(Math.log10(value || 1)) : Math.trunc(value).toFixed().length;
  const places = Math.min(12, Math.max(0, digits - whole));
  // Number() drops the noughts that say nothing; toFixed() keeps small values out of exponents.
  const rounded = value.toFixed(places);
  return `${rounded.includes('.') ? rounded.replace(/\.?0+$/, '') : rounded} ${unit}`;
}
