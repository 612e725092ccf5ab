import { levelCurve } from './level-curve.js';
import type { ColourLines } from './sample-colours.js';

/** Lightness of a picture in bands along an axis. */
export interface Bands {
  /** Pixels to a place. */
  readonly step: number;
  /** One curve a band, without what changes slowly: bricks are as light as one another, joints not. */
  readonly curves: readonly Float64Array[];
}

// A course of bricks is seen in one of them at least.
const most = 48;
const longest = 640;
// Pixels on each side over which lightness is levelled: wider than a joint.
const reach = 12;

/**
 * Lay lines together in bands, in which joints between bricks show that lie in another place in
 * every course.
 *
 * @param lines - Of a picture.
 * @returns About 48 curves.
 */
export function toBands(lines: ColourLines): Bands {
  const { count, length } = lines;
  const [lightness] = lines.planes;
  const step = Math.max(1, Math.ceil(length / longest));
  const size = Math.floor(length / step);
  const each = Math.max(1, Math.floor(count / most));
  const curves: Float64Array[] = [];
  for (let first = 0; first + each <= count; first += each) {
    const band = new Float64Array(size);
    for (let line = first; line < first + each; line++) {
      const start = line * length;
      for (let at = 0; at < size; at++) {
        let sum = 0;
        const from = start + at * step;
        for (let i = from; i < from + step; i++) sum += lightness[i]!;
        band[at] = band[at]! + sum;
      }
    }
    curves.push(levelCurve(band, Math.max(2, Math.round(reach / step))));
  }
  return { step, curves };
}
