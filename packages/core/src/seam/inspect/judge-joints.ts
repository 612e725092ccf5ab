import type { Raster } from '../../raster/raster.js';
import { type Meeting, meetAcross } from './meet-across.js';
import { quantile } from './quantile.js';
import { usualValues } from './usual-values.js';

/** How lines run through a picture's wrap. */
export interface JointJudgement {
  /** How much worse than inside: 1 is the border. */
  readonly score: number;
  /** Pixels by which lines are broken there, down or to the right, or null where none can be told. */
  readonly shift: number | null;
}

// Pixels of each side: a joint's thickness, a small course, a large one.
const widths = [8, 24, 72] as const;
// Places inside that tell what is usual.
const probes = 16;
// Below this likeness nobody can say which line goes on as which.
const leastLike = 0.4;
// What is usual is not known better than this, in likeness and in pixels.
const leastSpread = 0.4;
const leastShift = 1.2;
// Lines that wander by more from one side of a place to the other do not run through.
const mostShift = 2;
// Lines are broken only where they are more alike once moved.
const leastGain = 0.08;
const unseen = 1.4;

/**
 * Judge whether what runs across a picture's wrap goes on there as it does inside: courses level on
 * both sides, boards end to end, bricks in bond.
 *
 * @param raster - In linear light.
 * @param axis - `x` where it is laid side by side.
 * @param alike - Places inside that look as the wrap does.
 * @returns The judgement; a score of 0 where there is nothing to compare with.
 */
export function judgeJoints(raster: Raster, axis: 'x' | 'y', alike: Int32Array): JointJudgement {
  const length = axis === 'x' ? raster.width : raster.height;
  let worst: JointJudgement = { score: 0, shift: null };
  for (const width of widths) {
    const inside = alike.filter((place) => place >= width && place <= length - width);
    if (width > length / 4 || inside.length < 8) break;
    const every = Math.max(1, inside.length / probes);
    const places = Int32Array.from(
      { length: Math.min(probes, inside.length) },
      (_, at) => inside[Math.floor(at * every)]!,
    );
    const usual = Array.from(places, (place) => meetAcross(raster, axis, place, width));
    const judged = judge(meetAcross(raster, axis, 0, width), usual, places);
    worst = {
      score: Math.max(worst.score, judged.score),
      shift: worst.shift ?? judged.shift,
    };
  }
  return worst;
}

function judge(wrap: Meeting, inside: readonly Meeting[], places: Int32Array): JointJudgement {
  const likeness = Float64Array.from(inside, (meeting) => meeting.likeness);
  const { mean, least, most } = usualValues(likeness, places, 8);
  const loss = (mean - wrap.likeness) / Math.max(mean - least, leastSpread);
  const gain = (wrap.likeness - mean) / Math.max(most - mean, leastSpread);
  const strange = Math.max(loss, gain) / unseen;
  if (!runThrough(inside) || wrap.best < leastLike) return { score: strange, shift: null };
  if (wrap.best - wrap.likeness < leastGain || loss < 0.5) return { score: strange, shift: 0 };
  const shifts = Float64Array.from(inside, (meeting) => Math.abs(meeting.shift));
  const broken = Math.abs(wrap.shift) / Math.max(unseen * quantile(shifts, 0.9), leastShift);
  return { score: Math.max(strange, broken), shift: wrap.shift };
}

// Whether lines cross the places inside without a break, so that it can be told which goes on as which.
function runThrough(inside: readonly Meeting[]): boolean {
  const likeness = Float64Array.from(inside, (meeting) => meeting.likeness);
  const shifts = Float64Array.from(inside, (meeting) => Math.abs(meeting.shift));
  return quantile(likeness, 0.25) >= leastLike && quantile(shifts, 0.9) <= mostShift;
}
