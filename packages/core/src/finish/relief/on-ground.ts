import { toSrgb } from '../../colour/srgb.js';
import type { ReliefMark } from '../../page/relief-mark.js';
import { mapShades } from './map-shades.js';

/** The mean of a ground: red, green and blue in linear light. */
export type GroundMean = readonly [red: number, green: number, blue: number];

// A ground as light as this, encoded, shows marks as opaque as they are drawn; seen on proofs at arm's length.
const plain = 0.34;
// For each so much that it is darker, marks are laid once more.
const step = 0.18;
const most = 1.6;

/**
 * Have marks show on a dark ground. Overlay of white makes it twice as light and no lighter, so there marks are laid
 * over themselves, the last as much weaker as is left of once. Of dark ones that comes to a greater opacity. What lies
 * deeper as a whole stays as it is, so that its shadow is told from it.
 *
 * @param marks - As drawn, for any ground.
 * @param mean - Of what lies under them.
 * @returns The same where it is not dark.
 */
export function onGround(marks: readonly ReliefMark[], mean: GroundMean): readonly ReliefMark[] {
  const more = moreOften(mean);
  if (more === 0) return marks;
  const darker = (shade: number): number => (shade < 0 ? (1 + shade) ** (1 + more) - 1 : shade);
  const parts = Array.from({ length: Math.ceil(more) }, (_, i) => Math.min(1, more - i));
  return marks.flatMap((mark) => {
    if (mark.isFace === true || (mark.kind === 'band' && mark.tone === 'paper')) return [mark];
    const again = parts.flatMap((part) => mapShades(mark, (shade) => Math.max(0, part * shade)));
    return [...mapShades(mark, darker), ...again.map((one) => ({ ...one, isAgain: true }))];
  });
}

function moreOften([red, green, blue]: GroundMean): number {
  // Luminance, by the primaries of IEC 61966-2-1.
  const luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  return Math.min(most, Math.max(0, (plain - toSrgb(luminance)) / step));
}
