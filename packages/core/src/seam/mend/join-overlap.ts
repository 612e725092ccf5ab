import { solveMembrane } from '../../numeric/solve-membrane.js';
import type { Overlap } from './overlap.js';

/** How two windows become one. */
export type JoinMethod = 'blend' | 'cut' | 'gradient';

/** What {@link joinOverlap} may be told. */
export interface JoinOptions {
  /** How. */
  readonly method: JoinMethod;
  /** First column taken from the beginning, row by row. */
  readonly border: Int32Array;
  /** Whether top meets bottom, so that the join must too. */
  readonly closed: boolean;
}

/**
 * Make one window of two: fade one into the other keeping contrast, cut along a border, or cut there
 * and spread what is left of the step over a band.
 *
 * @param windows - The two.
 * @param options - How.
 * @returns Colour by colour, in square roots of light: the first window at its left edge, the
 * second at its right.
 */
export function joinOverlap(windows: Overlap, options: JoinOptions): Float32Array[] {
  const { method, border, closed } = options;
  if (method === 'blend') return fade(windows);
  const { width, height } = windows;
  return windows.ending.map((ending, channel) => {
    const plane = alongCut(ending, windows.beginning[channel]!, border, width);
    if (method === 'cut') return plane;
    const sources = stepsAcross(windows, channel, border, closed);
    const ends = closed ? 'closed' : 'free';
    const correction = solveMembrane(sources, { width, height, ends });
    for (let i = 0; i < plane.length; i++) correction[i]! += plane[i]!;
    return correction;
  });
}

function alongCut(
  ending: Float32Array,
  beginning: Float32Array,
  cut: Int32Array,
  width: number,
): Float32Array {
  const out = beginning.slice();
  for (let y = 0; y < cut.length; y++) {
    const row = y * width;
    out.set(ending.subarray(row, row + cut[y]!), row);
  }
  return out;
}

// Past this step, in roots of light, the two windows show different things (brick and mortar), and
// their edge is better left than smeared.
const largestStep = 0.12;

// The correction must rise across the cut by what the second window lacks there.
function stepsAcross(
  windows: Overlap,
  channel: number,
  cut: Int32Array,
  closed: boolean,
): Float32Array {
  const { width, height } = windows;
  const ending = windows.ending[channel]!;
  const beginning = windows.beginning[channel]!;
  const sources = new Float32Array(width * height);
  const cross = (from: number, to: number): void => {
    const step = (ending[from]! - beginning[from]! + ending[to]! - beginning[to]!) / 2;
    const kept = step / (1 + (step / largestStep) ** 2);
    sources[from]! -= kept;
    sources[to]! += kept;
  };
  for (let y = 0; y < height; y++) {
    const here = cut[y]!;
    cross(y * width + here - 1, y * width + here);
    if (y + 1 === height && !closed) break;
    const below = y + 1 === height ? 0 : y + 1;
    const next = cut[below]!;
    for (let x = here; x < next; x++) cross(below * width + x, y * width + x);
    for (let x = next; x < here; x++) cross(y * width + x, below * width + x);
  }
  return sources;
}

// Two unlike windows averaged have less contrast than either: it is given back, after Heitz and
// Neyret 2018, for the correlation that the two really have.
function fade(windows: Overlap): Float32Array[] {
  const { width, height, margin } = windows;
  const inner = width - 2 * margin;
  return windows.ending.map((ending, channel) => {
    const beginning = windows.beginning[channel]!;
    const { one, other, alike } = moments(ending, beginning);
    const out = new Float32Array(ending.length);
    for (let x = 0; x < width; x++) {
      const share = Math.min(1, Math.max(0, (x - margin + 0.5) / inner));
      const rest = 1 - share;
      const norm = Math.sqrt(share * share + rest * rest + 2 * share * rest * alike);
      const mean = rest * one + share * other;
      for (let y = 0, at = x; y < height; y++, at += width) {
        const mixed = rest * (ending[at]! - one) + share * (beginning[at]! - other);
        out[at] = Math.max(0, mean + mixed / norm);
      }
    }
    return out;
  });
}

function moments(
  first: Float32Array,
  second: Float32Array,
): { one: number; other: number; alike: number } {
  const size = first.length;
  let one = 0;
  let other = 0;
  for (let i = 0; i < size; i++) {
    one += first[i]!;
    other += second[i]!;
  }
  one /= size;
  other /= size;
  let both = 0;
  let ones = 1e-12;
  let others = 1e-12;
  for (let i = 0; i < size; i++) {
    const a = first[i]! - one;
    const b = second[i]! - other;
    both += a * b;
    ones += a * a;
    others += b * b;
  }
  return { one, other, alike: Math.max(0, both / Math.sqrt(ones * others)) };
}
