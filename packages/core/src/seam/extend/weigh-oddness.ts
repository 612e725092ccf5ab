import { median } from '../../numeric/median.js';

// In what mortarAround tells, where the colour of the face begins.
const face = 18;
// Bricks differ by so many median deviations without catching the eye; past so many more all are alike.
const usual = 3;
const most = 4;
// Square roots of light: so little is never odd.
const leastSpread = 0.01;

/**
 * Tell how much each brick catches the eye: one that does is seen to come again.
 *
 * @param bricks - All there are.
 * @returns For each, 0 for an ordinary one up to 1.
 */
export function weighOddness(bricks: readonly { readonly mortar: Float64Array }[]): Float64Array {
  const odd = new Float64Array(bricks.length);
  for (let channel = 0; channel < 3; channel++) {
    const tones = Float64Array.from(bricks, ({ mortar }) => mortar[face + channel]!);
    const middle = median(tones);
    const off = tones.map((tone) => Math.abs(tone - middle));
    const spread = median(off) + leastSpread;
    for (let i = 0; i < odd.length; i++) {
      odd[i] = Math.max(odd[i]!, Math.min(1, Math.max(0, off[i]! / spread - usual) / most));
    }
  }
  return odd;
}
