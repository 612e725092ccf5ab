import type { UncertaintyPart } from '../../surface/measurement.js';
import type { Point } from '../../units/parse-point.js';
import type { FocalLength } from '../find-focal-length.js';
import { usualFocal } from '../usual-focal.js';
import type { Size } from '../../units/parse-size.js';

/** How a photo may have been taken. */
export interface Slant {
  /** How far off square it may be, either way, all of it alike; 0 for square. */
  readonly degrees: number;
  /** The lens, where it is known. */
  readonly focal?: FocalLength | undefined;
}

/** A line in a picture, and how much of the scale it gives. */
export interface SharedSpan {
  /** Its ends. */
  readonly span: { readonly from: Point; readonly to: Point };
  /** 0 to 1; all together 1. */
  readonly share: number;
}

/**
 * What a photo that may be off square puts a scale out by, at the photo's middle. Two things come of
 * a slant: everything along it is foreshortened, and what lies to one side is nearer than what lies
 * to the other, so that a line off the middle has another scale than the middle. The second is much
 * the larger, unless lines lie about the middle or on both sides of it.
 *
 * @param size - The picture.
 * @param lines - What the scale rests on.
 * @param slant - How the photo may have been taken.
 * @returns One part, or none where the photo is square.
 * @see JCGM 100:2008 (GUM), 4.3.7 and equation 13: the slant is common to all lines
 */
export function slantPart(
  size: Size<number>,
  lines: readonly SharedSpan[],
  slant: Slant,
): UncertaintyPart[] {
  const { degrees, focal: lens = usualFocal(size) } = slant;
  if (degrees === 0) return [];
  const angle = (degrees * Math.PI) / 180;
  const focal = lens.px;
  let [acrossSlant, downSlant] = [0, 0];
  for (const { span, share } of lines) {
    const { from, to } = span;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const [cos, sin] = [(to.x - from.x) / length, (to.y - from.y) / length];
    const x = (from.x + to.x - size.width) / 2;
    const y = (from.y + to.y - size.height) / 2;
    // First order of (x, y) -> (x, y) / (1 - a x / f), along the line: for a slant across and down.
    acrossSlant += (share * (x * (1 + cos * cos) + y * cos * sin)) / focal;
    downSlant += (share * (y * (1 + sin * sin) + x * cos * sin)) / focal;
  }
  const offMiddle = Math.tan(angle) * Math.hypot(acrossSlant, downSlant);
  const percent = (100 / Math.sqrt(3)) * Math.hypot(1 - Math.cos(angle), offMiddle);
  return [{ source: 'perspective', percent }];
}
