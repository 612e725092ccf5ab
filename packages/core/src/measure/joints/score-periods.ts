import type { Evidence } from './find-evidence.js';

/** A course height that the evidence speaks for. */
export interface Candidate {
  /** Course height in rows of the picture. */
  readonly course: number;
  /** Mix of line and edge that its joints show, in radians: 0 a dark line, pi a light one. */
  readonly look: number;
  /** Deviation of its joints, rows. */
  readonly joint: number;
  /** -1 to 1: joints where they should be, less the best line that should not be there. */
  readonly score: number;
}

const teeth = 8;
const looks = 8;
const mostWindows = 8;

// What most teeth show: the mean of the third to fifth lowest of eight, and so on. A comb on half
// the true course has no joint on every second tooth; one missing joint in four does no harm.
function lowerMiddle(sorted: Float64Array, count: number): number {
  const from = Math.floor(count * 0.2);
  const to = Math.max(from + 1, Math.ceil(count * 0.55));
  let sum = 0;
  for (let i = from; i < to; i++) sum += sorted[i]!;
  return sum / (to - from);
}

// The same of the opposite look, whose samples are these with the other sign.
function upperMiddle(sorted: Float64Array, count: number): number {
  const from = Math.floor(count * 0.2);
  const to = Math.max(from + 1, Math.ceil(count * 0.55));
  let sum = 0;
  for (let i = count - 1 - from; i > count - 1 - to; i--) sum -= sorted[i]!;
  return sum / (to - from);
}

function insert(sorted: Float64Array, count: number, value: number): void {
  let i = count;
  while (i > 0 && sorted[i - 1]! > value) {
    sorted[i] = sorted[i - 1]!;
    i--;
  }
  sorted[i] = value;
}

// Best phase of one window, joints there less the best rival phase a quarter course or more away.
function contrast(folded: Float64Array): number {
  const phases = folded.length;
  let best = -1;
  for (let p = 0; p < phases; p++) {
    const on = folded[p]!;
    if (on <= best) continue;
    let rival = 0;
    const last = p + (3 * phases) / 4;
    // No further than to a rival that leaves nothing better than the best.
    for (let d = p + phases / 4; d <= last && on - rival > best; d++) {
      const off = folded[d < phases ? d : d - phases]!;
      if (off > rival) rival = off;
    }
    if (on - rival > best) best = on - rival;
  }
  return best;
}

// Windows of eight courses vote, each with the phase that suits it, so that courses may drift and
// one band without joints cannot decide. A look and its opposite are scored together.
function scoreLooks(samples: Float32Array, period: number, scratch: ScoreScratch): ScoredLooks {
  const { sorted, folded, opposite } = scratch;
  const phases = folded.length;
  const length = samples.length;
  const count = Math.min(teeth, Math.floor((length - 1) / period));
  if (count < 2) return { look: -1, opposite: -1 };
  const room = length - 1 - count * period;
  const windows = Math.min(mostWindows, 1 + Math.floor(room / (count * period * 0.5)));
  let sum = 0;
  let other = 0;
  for (let w = 0; w < windows; w++) {
    const start = windows > 1 ? (room * w) / (windows - 1) : room / 2;
    for (let p = 0; p < phases; p++) {
      let y = start + (p / phases) * period;
      for (let t = 0; t < count; t++) {
        const i = Math.floor(y);
        const f = y - i;
        const next = i + 1 < length ? i + 1 : i;
        insert(sorted, t, samples[i]! * (1 - f) + samples[next]! * f);
        y += period;
      }
      folded[p] = lowerMiddle(sorted, count);
      opposite[p] = upperMiddle(sorted, count);
    }
    sum += contrast(folded);
    other += contrast(opposite);
  }
  return { look: sum / windows, opposite: other / windows };
}

interface ScoredLooks {
  readonly look: number;
  readonly opposite: number;
}

interface ScoreScratch {
  readonly sorted: Float64Array;
  readonly folded: Float64Array;
  readonly opposite: Float64Array;
}

/**
 * Score course heights against evidence made for them.
 *
 * @param evidence - Joints by row.
 * @param shortest - Least course height, rows.
 * @param longest - Greatest.
 * @returns One candidate for each height and look, 1.2 % apart.
 */
export function scorePeriods(evidence: Evidence, shortest: number, longest: number): Candidate[] {
  const found: Candidate[] = [];
  const { step, joint } = evidence;
  // Phases two thirds of a joint apart or nearer, a multiple of four of them.
  const phases = Math.max(24, 4 * Math.ceil((0.375 * longest) / joint));
  const scratch = {
    sorted: new Float64Array(teeth),
    folded: new Float64Array(phases),
    opposite: new Float64Array(phases),
  };
  for (let k = 0; k < looks / 2; k++) {
    const look = (2 * Math.PI * k) / looks;
    const samples = showLook(evidence, look);
    for (let course = shortest; course < longest; course *= 1.012) {
      const scored = scoreLooks(samples, course / step, scratch);
      found.push({ course, look, joint, score: scored.look });
      found.push({ course, look: look + Math.PI, joint, score: scored.opposite });
    }
  }
  return found;
}

/**
 * See the evidence as one mix of line and edge.
 *
 * @param evidence - Of any kind.
 * @param look - Radians: 0 a dark line, pi a light one, half pi an edge.
 * @returns One number a sample, 1 a certain joint.
 */
export function showLook(evidence: Evidence, look: number): Float32Array {
  const { line, edge, length } = evidence;
  const c = Math.cos(look);
  const s = Math.sin(look);
  const out = new Float32Array(length);
  for (let i = 0; i < length; i++) out[i] = c * line[i]! + s * edge[i]!;
  return out;
}
