import type { PicturePlan } from '../../drawing/slim/plan-picture.js';
import type { PerAxis, PlannedSpan } from '../../drawing/slim/plan-spans.js';
import { averageSamples, type Samples } from '../../raster/average-samples.js';
import { showByHalves } from '../../raster/show-smaller.js';

/**
 * Make a plan's new pixels: means of old ones. Where they are the dots of the print, half-way between those
 * and what a program shows that halves: each kind of program then shows half as much otherwise as the two
 * differ.
 *
 * @param old - Old pixels, beginning where programs would halve the same ones together.
 * @param plan - New ones, in pixels of those.
 * @param perDot - Old pixels to a dot.
 * @param out - As many samples as there are to be; filled. Made anew unless given.
 * @returns The new pixels.
 */
export function narrowSamples(
  old: Samples,
  plan: Pick<PicturePlan, 'x' | 'y' | 'isOnDots'>,
  perDot: PerAxis,
  out?: Uint8Array,
): Samples {
  const { x, y, isOnDots } = plan;
  const made = averageSamples(old, x, y, out);
  if (!isOnDots || old.channels === 2 || old.channels === 4) return made;
  const halves = showByHalves(old, { spots: middlesOf(x, y), ...perDot });
  // Halves go up and down in turn.
  for (let i = 0; i < halves.length; i++) {
    made.data[i] = (made.data[i]! + halves[i]! + (i & 1)) >> 1;
  }
  return made;
}

function middlesOf(x: PlannedSpan, y: PlannedSpan): Float64Array {
  const spots = new Float64Array(2 * x.count * y.count);
  for (let row = 0, at = 0; row < y.count; row++) {
    for (let column = 0; column < x.count; column++, at += 2) {
      spots[at] = x.start + (column + 0.5) * x.pitch;
      spots[at + 1] = y.start + (row + 0.5) * y.pitch;
    }
  }
  return spots;
}
