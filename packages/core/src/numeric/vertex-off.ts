/**
 * Find where between samples a curve is highest or lowest: the vertex of the parabola through a sample
 * and its neighbours.
 *
 * @param curve - Evenly spaced.
 * @param at - Its highest or lowest sample there.
 * @returns How far after that sample, -0.5 to 0.5; 0 at either end, and where all three are alike.
 */
export function vertexOff(curve: Float64Array, at: number): number {
  if (at === 0 || at === curve.length - 1) return 0;
  const before = curve[at - 1]!;
  const after = curve[at + 1]!;
  const bend = before - 2 * curve[at]! + after;
  return bend === 0 ? 0 : (before - after) / (2 * bend);
}
