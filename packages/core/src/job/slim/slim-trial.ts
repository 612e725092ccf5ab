import type { PictureLie, PicturePlan } from '../../drawing/slim/plan-picture.js';
import { endOf, type PlannedSpan } from '../../drawing/slim/plan-spans.js';
import type { Samples } from '../../raster/average-samples.js';
import { narrowSamples } from './slim-narrow.js';
import type { PicturePiece } from './slim-pieces.js';
import {
  compareShown,
  joinShown,
  type MostDifference,
  type Shown,
  showSamples,
} from './slim-shown.js';
import { insideOf, moveSpots, spreadSpots, type Stretch } from './slim-spots.js';

/** New pixels of pieces of a picture, and what a print would show of them. */
export interface SlimTrial {
  /** The pieces, one above the other. */
  readonly made: Samples;
  /** How many times as many pixels the plan makes. */
  readonly times: number;
  /** Whether pixels in their place print the same. */
  readonly judge: (samples: Samples) => boolean;
}

/** How a picture lies on the print, and how different new pixels of it may show. */
export interface TryOptions extends PictureLie {
  /** So much. */
  readonly most: MostDifference;
  /** Or, by halves, as much as the old ones do: see {@link compareShown}. */
  readonly isMean: boolean;
}

// New pixels of one piece, and the dots that it is judged by, all in its own old pixels.
interface Cell {
  readonly old: Samples;
  readonly x: PlannedSpan;
  readonly y: PlannedSpan;
  readonly spots: Float64Array;
}

/**
 * Make a plan's new pixels of pieces of a picture.
 *
 * @param pieces - Old pixels.
 * @param plan - What is to become of them.
 * @param options - How they lie on the print, and what is asked of them.
 * @returns The trial.
 */
export function tryPlan(
  pieces: readonly PicturePiece[],
  plan: PicturePlan,
  options: TryOptions,
): SlimTrial {
  const { perDot, most, isMean } = options;
  const xs = cutAlong(
    pieces.map(({ x }) => x),
    plan.x,
  );
  const ys = cutAlong(
    pieces.map(({ y }) => y),
    plan.y,
  );
  const cells = pieces.map((piece, i) =>
    toCell(piece, { x: xs[i]!, y: ys[i]! }, { ...options, count: mostSpots / pieces.length }),
  );
  const made = pileUp(cells.map(({ old, x, y }) => narrowSamples(old, { ...plan, x, y }, perDot)));
  const before = joinShown(
    cells.map(({ old, spots }) => showSamples(old, { spots, x: perDot.x, y: perDot.y })),
  );
  const judge = (samples: Samples): boolean => {
    const now = joinShown(cells.map((cell, i) => showNew(samples, { cell, i }, options)));
    const { mean, worst } = compareShown(before, now, isMean ? most : null);
    return mean <= most.mean && worst <= most.worst;
  };
  return { made, times: (plan.x.count * plan.y.count) / (made.width * made.height), judge };
}

// Blocks of JPEG, and pixels that programs halve together, stay whole.
const block = 16;

// As many new pixels of each stretch.
function cutAlong(stretches: readonly Stretch[], span: PlannedSpan): PlannedSpan[] {
  const { start, pitch, count } = span;
  const ends = stretches.map(({ from, length }) => {
    const [low, high] = [(from - start) / pitch, (from + length - start) / pitch];
    // What reaches past the picture's edge belongs to the piece at that edge.
    const first = low < 1 ? 0 : Math.ceil(low / block - 1e-9) * block;
    const last = from + length > endOf(span) - pitch ? count : Math.floor(high + 1e-9);
    return { first, count: last - first };
  });
  const fewest = Math.max(1, Math.min(...ends.map((one) => one.count)));
  const whole = fewest < count && fewest >= block ? fewest - (fewest % block) : fewest;
  return ends.map(({ first }) => ({ start: start + first * pitch, pitch, count: whole }));
}

const mostSpots = 9216;

function toCell(
  { old, x, y }: PicturePiece,
  spans: Pick<Cell, 'x' | 'y'>,
  place: PictureLie & { readonly count: number },
): Cell {
  const { perDot, count } = place;
  const window = { x: insideOf(spans.x, perDot.x), y: insideOf(spans.y, perDot.y) };
  return {
    old,
    x: { ...spans.x, start: spans.x.start - x.from },
    y: { ...spans.y, start: spans.y.start - y.from },
    spots: spreadSpots(window, place, count).map((at, i) => at - (i % 2 === 0 ? x.from : y.from)),
  };
}

function pileUp(parts: readonly Samples[]): Samples {
  const [first, ...others] = parts;
  if (first === undefined) throw new Error('a picture of no pieces');
  if (others.length === 0) return first;
  const { width, height, channels, data } = first;
  const all = new Uint8Array(data.length * parts.length);
  parts.forEach((part, i) => {
    all.set(part.data, i * data.length);
  });
  return { width, height: height * parts.length, channels, data: all };
}

function showNew(
  { width, channels, data }: Samples,
  { cell: { x, y, spots }, i }: { readonly cell: Cell; readonly i: number },
  { perDot }: PictureLie,
): Shown {
  const size = width * y.count * channels;
  const part = data.subarray(i * size, (i + 1) * size);
  return showSamples(
    { width, height: y.count, channels, data: part },
    { spots: moveSpots(spots, x, y), x: perDot.x / x.pitch, y: perDot.y / y.pitch },
  );
}
