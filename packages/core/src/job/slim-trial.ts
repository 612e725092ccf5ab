import { meanDifference } from '../colour/mean-difference.js';
import { applyTo, identity, invert } from '../numeric/matrix.js';
import type { PicturePlan, PicturePlans } from '../drawing/slim/plan-picture.js';
import { endOf, type PerAxis, type PlannedSpan } from '../drawing/slim/plan-spans.js';
import { averageSamples, type Samples } from '../raster/average-samples.js';
import { type DotSpots, showByArea, showByHalves } from '../raster/show-smaller.js';
import type { PicturePieces, Stretch } from './slim-pieces.js';

/**
 * How alike new pixels print: `same` where every program shows what it showed of the old ones; `truer`
 * where one that averages does, and one that halves and interpolates comes nearer to that average.
 */
export type Likeness = 'same' | 'truer';

/** New pixels of pieces of a picture, and what a print would show of them. */
export interface SlimTrial {
  /** The pieces, one above the other. */
  readonly made: Samples;
  /** How many times as many pixels the plan makes. */
  readonly times: number;
  /** How alike pixels in their place print, or null where that is not enough. */
  readonly judge: (samples: Samples) => Likeness | null;
}

/** How a picture lies on the print. */
export type Lie = Pick<PicturePlans, 'dots' | 'perDot'>;

// What is seen by nobody is half of what is just seen under a lens, 0.5. A little less for what lies between
// the pieces, and for the few digits that browsers interpolate with.
const mostDifference = 0.45;

// New pixels of one piece, and the dots that it is judged by, in its old pixels.
interface Cell {
  readonly old: Samples;
  readonly x: PlannedSpan;
  readonly y: PlannedSpan;
  readonly spots: Float64Array;
}

interface Shown {
  readonly area: Uint8Array;
  readonly halves: Uint8Array;
}

/**
 * Make a plan's new pixels of pieces of a picture.
 *
 * @param from - Old pixels.
 * @param plan - What is to become of them.
 * @param lie - How they lie on the print.
 * @returns The trial.
 */
export function tryPlan(from: PicturePieces, plan: PicturePlan, lie: Lie): SlimTrial {
  const { columns, rows, pieces } = from;
  const [xs, ys] = [cutAlong(columns, plan.x), cutAlong(rows, plan.y)];
  const cells = pieces.map((old, i): Cell => {
    const [column, row] = [i % columns.length, Math.floor(i / columns.length)];
    const [x, y] = [xs[column]!, ys[row]!];
    const corner = { x: columns[column]!.from, y: rows[row]!.from };
    return {
      old,
      x,
      y,
      spots: spotsIn(x, y, { ...lie, corner, count: mostSpots / pieces.length }),
    };
  });
  const made = pileUp(cells.map(({ old, x, y }) => averageSamples(old, x, y)));
  const before = groundsOf(made).map((ground) =>
    showAll(cells, ground, ({ old, spots }) => ({ samples: old, dots: { spots, ...lie.perDot } })),
  );
  const judge = (samples: Samples): Likeness | null => {
    const likenesses = groundsOf(samples).map((ground, i) => {
      const now = showAll(cells, ground, (cell, at) => showNew(samples, cell, at, lie.perDot));
      return likenessOf(before[i]!, now, samples.channels >= 3 ? 3 : 1);
    });
    if (likenesses.includes(null)) return null;
    return likenesses.includes('truer') ? 'truer' : 'same';
  };
  return { made, times: (plan.x.count * plan.y.count) / (made.width * made.height), judge };
}

// Blocks of JPEG, and pixels that programs halve together, stay whole.
const block = 16;

// As many new pixels of each stretch, in its own old ones.
function cutAlong(stretches: readonly Stretch[], span: PlannedSpan): PlannedSpan[] {
  const { start, pitch, count } = span;
  const ends = stretches.map(({ from, length }) => {
    const [low, high] = [(from - start) / pitch, (from + length - start) / pitch];
    // What reaches past the picture's edge belongs to the piece at that edge.
    const first = low < 1 ? 0 : Math.ceil(low / block - 1e-9) * block;
    const last = from + length > endOf(span) - pitch ? count : Math.floor(high + 1e-9);
    return { from, first, count: last - first };
  });
  const fewest = Math.max(1, Math.min(...ends.map((one) => one.count)));
  const whole = stretches.length > 1 && fewest >= block ? fewest - (fewest % block) : fewest;
  return ends.map(({ from, first }) => ({
    start: start + first * pitch - from,
    pitch,
    count: whole,
  }));
}

const mostSpots = 9216;

interface SpotPlace extends Lie {
  readonly corner: PerAxis;
  readonly count: number;
}

// Middles of dots spread over a piece, as far from its edge as a program looks, where it is that large.
function spotsIn(x: PlannedSpan, y: PlannedSpan, place: SpotPlace): Float64Array {
  const { dots, perDot, corner } = place;
  const back = invert(dots);
  const each = Math.floor(Math.sqrt(place.count));
  const [across, down] = [insideOf(x, perDot.x), insideOf(y, perDot.y)];
  const spots = new Float64Array(2 * each * each);
  for (let i = 0; i < each * each; i++) {
    const u = across.from + (across.length * ((i % each) + 0.5)) / each;
    const v = down.from + (down.length * (Math.floor(i / each) + 0.5)) / each;
    const dot = applyTo(back ?? identity, { x: corner.x + u, y: corner.y + v });
    const spot = applyTo(dots, { x: Math.floor(dot.x) + 0.5, y: Math.floor(dot.y) + 0.5 });
    // Shown larger than it is, it is judged pixel by pixel.
    spots[2 * i] = perDot.x < 1 ? Math.floor(u) + 0.5 : spot.x - corner.x;
    spots[2 * i + 1] = perDot.y < 1 ? Math.floor(v) + 0.5 : spot.y - corner.y;
  }
  return spots;
}

function insideOf(span: PlannedSpan, perDot: number): Stretch {
  const reach = 2 * Math.max(perDot, span.pitch);
  const length = span.pitch * span.count;
  const edge = length > 4 * reach ? reach : 0;
  return { from: span.start + edge, length: length - 2 * edge };
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
  { x, y, spots }: Cell,
  at: number,
  perDot: PerAxis,
): { readonly samples: Samples; readonly dots: DotSpots } {
  const size = width * y.count * channels;
  const part = data.subarray(at * size, (at + 1) * size);
  const moved = spots.map((spot, i) => {
    const { start, pitch } = i % 2 === 0 ? x : y;
    return (spot - start) / pitch;
  });
  return {
    samples: { width, height: y.count, channels, data: part },
    dots: { spots: moved, x: perDot.x / x.pitch, y: perDot.y / y.pitch },
  };
}

function showAll(
  cells: readonly Cell[],
  ground: number,
  take: (cell: Cell, at: number) => { readonly samples: Samples; readonly dots: DotSpots },
): Shown {
  const shown = cells.map((cell, i) => {
    const { samples, dots } = take(cell, i);
    const flat = flatten(samples, ground);
    return { area: showByArea(flat, dots), halves: showByHalves(flat, dots) };
  });
  return {
    area: joined(shown.map(({ area }) => area)),
    halves: joined(shown.map(({ halves }) => halves)),
  };
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

// What is transparent shows what lies under it, dark or light.
function groundsOf({ channels }: Samples): readonly number[] {
  return channels === 2 || channels === 4 ? [0, 255] : [255];
}

function flatten(samples: Samples, ground: number): Samples {
  const { width, height, channels, data } = samples;
  if (channels === 1 || channels === 3) return samples;
  const colours = channels - 1;
  const out = new Uint8Array(width * height * colours);
  for (let from = 0, to = 0; from < data.length; from += channels) {
    const alpha = data[from + colours]! / 255;
    for (let c = 0; c < colours; c++) {
      out[to++] = Math.round(alpha * data[from + c]! + (1 - alpha) * ground);
    }
  }
  return { width, height, channels: colours, data: out };
}

function likenessOf(before: Shown, now: Shown, channels: number): Likeness | null {
  if (meanDifference(before.area, now.area, channels) > mostDifference) return null;
  if (meanDifference(before.halves, now.halves, channels) <= mostDifference) return 'same';
  const was = meanDifference(before.halves, before.area, channels);
  return meanDifference(now.halves, before.area, channels) <= was ? 'truer' : null;
}
