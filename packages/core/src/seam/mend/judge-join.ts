import type { Overlap } from './overlap.js';

/** How well two windows became one. */
export interface JoinScore {
  /** Step across the border over the steps that both windows have there: 1 is as inside. */
  readonly step: number;
  /** Contrast of fine detail over that of the windows. */
  readonly contrast: number;
  /** By how much more than the windows it is like itself half a brick on. */
  readonly ghost: number;
  /** All of these in one: the step, and a price on what the others lack. Less is better. */
  readonly score: number;
}

/** What a join is judged by. */
export interface JudgeOptions {
  /** First column taken from the beginning, row by row. */
  readonly border: Int32Array;
  /** Half a brick along the windows' rows and along their columns, in pixels; null where unknown. */
  readonly halfBrick: { readonly along: number | null; readonly across: number | null };
}

// Rows that are seen as one piece of a border: a step of light over them shows, one pixel's does not.
const piece = 12;
// Samples on each side of the border, for light.
const beside = 3;
// Contrast this far from 1 and likeness raised by this much are not seen; past that they cost so much.
const unseen = { contrast: 0.02, ghost: 0.01 };
const price = { contrast: 4, ghost: 8 };

/**
 * Look at two windows, so that joins of them can be judged.
 *
 * @param windows - The two.
 * @param options - Where the border runs.
 * @returns What judges a join of them, told what they became, colour by colour.
 */
export function createJudge(
  windows: Overlap,
  options: JudgeOptions,
): (joined: readonly Float32Array[]) => JoinScore {
  const { border, halfBrick } = options;
  const { width } = windows;
  const measures = [
    (plane: Float32Array) => edgeStep(plane, width, border),
    (plane: Float32Array) => lightStep(plane, width, border),
    (plane: Float32Array) => fineDetail(plane, windows),
  ] as const;
  const lags = [
    { lag: halfBrick.along, stride: 1, ...windows },
    { lag: halfBrick.across, stride: width, ...windows },
  ] as const;
  const one = toLightness(windows.ending);
  const other = toLightness(windows.beginning);
  const usual = measures.map((measure) => Math.sqrt((measure(one) ** 2 + measure(other) ** 2) / 2));
  const alike = lags.map((lag) => (likeness(one, lag) + likeness(other, lag)) / 2);
  return (joined) => {
    const made = toLightness(joined);
    const [edge = 0, light = 0, contrast = 0] = measures.map(
      (measure, i) => (measure(made) + 1e-4) / (usual[i]! + 1e-4),
    );
    const step = Math.max(edge, light);
    const ghost = Math.max(0, ...lags.map((lag, i) => likeness(made, lag) - alike[i]!));
    const score =
      step +
      price.contrast * Math.max(0, Math.abs(contrast - 1) - unseen.contrast) +
      price.ghost * Math.max(0, ghost - unseen.ghost);
    return { step, contrast, ghost, score };
  };
}

// Luminance of linear light has much the same weights; these are of its roots.
const weights = [0.25, 0.65, 0.1];

function toLightness(planes: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(planes[0]?.length ?? 0);
  for (const [channel, plane] of planes.entries()) {
    const weight = weights[channel]!;
    for (let i = 0; i < out.length; i++) out[i] = out[i]! + weight * plane[i]!;
  }
  return out;
}

// Root mean square of the steps from pixel to pixel across the border.
function edgeStep(plane: Float32Array, width: number, border: Int32Array): number {
  let sum = 0;
  for (let y = 0; y < border.length; y++) {
    const at = y * width + border[y]!;
    sum += (plane[at]! - plane[at - 1]!) ** 2;
  }
  return Math.sqrt(sum / border.length);
}

// The same of what lies a little way either side, piece by piece.
function lightStep(plane: Float32Array, width: number, border: Int32Array): number {
  let squares = 0;
  let pieces = 0;
  for (let top = 0; top < border.length; top += piece) {
    const end = Math.min(border.length, top + piece);
    let sum = 0;
    for (let y = top; y < end; y++) {
      const x = border[y]!;
      for (let u = 0; u < beside; u++) {
        sum += plane[y * width + Math.min(width - 1, x + u)]!;
        sum -= plane[y * width + Math.max(0, x - 1 - u)]!;
      }
    }
    squares += (sum / (beside * (end - top))) ** 2;
    pieces++;
  }
  return Math.sqrt(squares / pieces);
}

// Root mean square of what a pixel differs from the mean of its neighbours along a row.
function fineDetail(plane: Float32Array, { width, height, margin }: Overlap): number {
  let sum = 0;
  const from = margin;
  const to = width - margin;
  for (let y = 0; y < height; y++) {
    for (let at = y * width + from; at < y * width + to; at++) {
      const detail = plane[at]! - (plane[at - 1]! + plane[at + 1]!) / 2;
      sum += detail * detail;
    }
  }
  return Math.sqrt(sum / Math.max(1, height * (to - from)));
}

interface Lag {
  readonly lag: number | null;
  readonly stride: number;
  readonly width: number;
  readonly height: number;
}

// How like itself a plane is, so many samples on: 1 the same, 0 strangers.
function likeness(plane: Float32Array, { lag, stride, width, height }: Lag): number {
  const apart = Math.round(lag ?? 0);
  const [columns, rows] = stride === 1 ? [width - apart, height] : [width, height - apart];
  if (apart < 2 || columns < 2 || rows < 2) return 0;
  let [sum, squares, products] = [0, 0, 0];
  for (let y = 0; y < rows; y++) {
    for (let at = y * width, end = at + columns; at < end; at++) {
      const here = plane[at]!;
      const there = plane[at + apart * stride]!;
      sum += here + there;
      squares += here * here + there * there;
      products += here * there;
    }
  }
  const size = rows * columns;
  const mean = sum / (2 * size);
  return (products / size - mean * mean) / (squares / (2 * size) - mean * mean + 1e-9);
}
