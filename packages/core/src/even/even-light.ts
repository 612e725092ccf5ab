import { createRaster, type Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import { cellLight, type JointRows } from './cell-light.js';
import { layCurves, legendre, listCurves } from './drift-curves.js';
import { findEdge } from './find-edge.js';
import { type Drift, type DriftTerm, fitDrift } from './fit-drift.js';

/** What is known of a picture whose light is to be made even. */
export interface EvenOptions {
  /** Along which axes; not along one on which the picture meets itself already. */
  readonly along: PerAxis<boolean>;
  /** A brick with its joint, pixels each way, or null where there are none. */
  readonly unit: PerAxis<number | null>;
  /** Its bed joints, or null. */
  readonly joints: JointRows | null;
  /** Per cent of light above which it is left as it is; none unless told. */
  readonly most?: number;
  /** Whether its own planes may be written to; not unless told. */
  readonly inPlace?: boolean;
}

/** A picture in even light. */
export interface EvenedPicture {
  /** Of its own; as light as before. */
  readonly raster: Raster;
  /** How much lighter the picture was at its lightest than at its darkest, in per cent, by drift alone. */
  readonly strengthPercent: number;
  /** Where it was lightest: `top left` and the like, or null where it was even. */
  readonly lightest: string | null;
  /** Where it was darkest. */
  readonly darkest: string | null;
  /** Share of the picture that lies in a hard shadow, which is left as it is; 0 to 1. */
  readonly shadowed: number;
}

/** Pixels between the places at which the drift is worked out. */
const grid = 16;
/** Logarithm by which tint may drift either way: more is not of the light. */
const mostTint = 0.25;
/** Variance that an edge explains over what chance would, at least: hundreds of edges are tried. */
const leastEdge = 40;
/** Deviations and logarithm of an edge, at least, that is called a shadow's. */
const sureShadow = 5;
const leastShadow = 0.2;
/** Per cent under which light counts as even. */
const even = 0.5;

/**
 * Take slow changes of light and colour out of a picture. They would show as a grid where it repeats.
 * Anything that changes faster, brick from brick or patch from patch, stays, and so does the edge of
 * a shadow.
 *
 * @param raster - In linear light, left as it is unless told.
 * @param options - What is known of it.
 * @returns The picture in even light, and how uneven it was.
 */
export function evenLight(raster: Raster, options: EvenOptions): EvenedPicture {
  const { along, unit, joints, most = Infinity } = options;
  const cells = cellLight(raster, unit, joints);
  const { count, x, y } = cells;
  const of = joints === null ? 'patches' : 'bricks';
  const curves = listCurves(count, along);
  const edge = findEdge(cells, layCurves(cells, curves));
  const fit = (values: Float64Array, beyond: Float64Array | null): Drift =>
    fitDrift({ count, x, y, curves, of, beyond }, values);
  const plain = fit(cells.light, null);
  const split = edge !== null && edge.strength > leastEdge ? fit(cells.light, edge.beyond) : plain;
  const past = edge !== null && isShadow(split, plain) ? edge.beyond : null;
  const { terms: light, step } = past === null ? plain : split;
  const shadowed = past === null ? 0 : shareOf(past, step);
  const drifts = cells.tints.map((tint) => [...light, ...hold(fit(tint, past).terms)]);
  const field = describe(light);
  const isLeft = field.strengthPercent > most || drifts.every((terms) => terms.length === 0);
  return { raster: isLeft ? raster : divideAll(raster, drifts, options), ...field, shadowed };
}

function divideAll(
  raster: Raster,
  drifts: readonly (readonly DriftTerm[])[],
  { inPlace = false }: EvenOptions,
): Raster {
  const out = inPlace ? raster : createRaster(raster.width, raster.height);
  for (const [channel, terms] of drifts.entries()) {
    const plane = out.planes[channel]!;
    scale(plane, divide(raster, { channel, terms }, plane));
  }
  return out;
}

// A shadow takes slopes over that would be too steep without it. An edge that wants steeper ones to
// make up for it is of the work itself: a stratum, a plinth, a band of darker bricks.
function isShadow({ certainty, step, terms }: Drift, plain: Drift): boolean {
  if (!(certainty > sureShadow && Math.abs(step) > leastShadow)) return false;
  return rangeOf(terms).log <= rangeOf(plain.terms).log;
}

// The darker side is the shadow.
function shareOf(beyond: Float64Array, step: number): number {
  const share = beyond.reduce((sum, part) => sum + part, 0) / beyond.length;
  return step < 0 ? share : 1 - share;
}

// In a channel that is near black a little noise is a strong tint.
function hold(terms: readonly DriftTerm[]): readonly DriftTerm[] {
  const reach = terms.reduce((sum, { amount }) => sum + Math.abs(amount), 0);
  if (reach <= mostTint) return terms;
  return terms.map((term) => ({ ...term, amount: (term.amount * mostTint) / reach }));
}

type Field = Pick<EvenedPicture, 'strengthPercent' | 'lightest' | 'darkest'>;

function describe(terms: readonly DriftTerm[]): Field {
  const { log, high, low } = rangeOf(terms);
  const strengthPercent = 100 * (Math.exp(log) - 1);
  if (strengthPercent < even) return { strengthPercent, lightest: null, darkest: null };
  return { strengthPercent, lightest: nameOf(high), darkest: nameOf(low) };
}

interface Range {
  // From the darkest place to the lightest, in logarithms.
  readonly log: number;
  readonly high: PerAxis<number>;
  readonly low: PerAxis<number>;
}

// From the middle outwards, so that light which drifts only down is lightest at the top, not top left.
const looked = [0, -0.25, 0.25, -0.5, 0.5, -0.75, 0.75, -1, 1] as const;

function rangeOf(terms: readonly DriftTerm[]): Range {
  let low = { x: 0, y: 0, log: driftAt(terms, 0, 0) };
  let high = low;
  for (const y of looked) {
    for (const x of looked) {
      const place = { x, y, log: driftAt(terms, x, y) };
      if (place.log < low.log) low = place;
      if (place.log > high.log) high = place;
    }
  }
  return { log: high.log - low.log, high, low };
}

function nameOf({ x, y }: PerAxis<number>): string {
  const across = x < -0.4 ? 'left' : x > 0.4 ? 'right' : '';
  const down = y < -0.4 ? 'top' : y > 0.4 ? 'foot' : '';
  return [down, across].filter((word) => word !== '').join(' ') || 'middle';
}

function driftAt(terms: readonly DriftTerm[], x: number, y: number): number {
  let sum = 0;
  for (const term of terms) sum += term.amount * legendre(term.x, x) * legendre(term.y, y);
  return sum;
}

// Fills `out` with a channel in even light. Returns how much lighter it was before, over now.
function divide(
  { width, height, planes }: Raster,
  { channel, terms }: { readonly channel: number; readonly terms: readonly DriftTerm[] },
  out: Float32Array,
): number {
  const plane = planes[channel]!;
  const across = Math.ceil(width / grid) + 1;
  const nodes = (row: number): Float64Array =>
    Float64Array.from({ length: across }, (_, i) =>
      Math.exp(-driftAt(terms, (2 * i * grid) / width - 1, (2 * row) / height - 1)),
    );
  let above = nodes(0);
  let below = nodes(grid);
  const gains = new Float64Array(width);
  const sums = new Float64Array(2);
  for (let y = 0; y < height; y++) {
    const whole = y - (y % grid);
    if (y === whole && y > 0) [above, below] = [below, nodes(whole + grid)];
    layGains(above, below, (y - whole + 0.5) / grid, gains);
    divideRow(plane.subarray(y * width, (y + 1) * width), gains, { out, at: y * width, sums });
  }
  const [before = 0, after = 0] = sums;
  return after > 0 ? before / after : 1;
}

// What a row is to be multiplied by, between two rows of nodes.
function layGains(
  above: Float64Array,
  below: Float64Array,
  part: number,
  gains: Float64Array,
): void {
  for (let i = 0, x = 0; x < gains.length; i++) {
    const left = above[i]! + part * (below[i]! - above[i]!);
    const right = above[i + 1]! + part * (below[i + 1]! - above[i + 1]!);
    const step = (right - left) / grid;
    const end = Math.min(gains.length, x + grid);
    for (let gain = left + step / 2; x < end; x++, gain += step) gains[x] = gain;
  }
}

// A row at a time: what is called a thousand times is compiled well sooner than one loop over all of it.
function divideRow(
  row: Float32Array,
  gains: Float64Array,
  to: { readonly out: Float32Array; readonly at: number; readonly sums: Float64Array },
): void {
  const { out, at, sums } = to;
  let [before, after] = [sums[0]!, sums[1]!];
  for (let x = 0; x < row.length; x++) {
    const light = row[x]!;
    const even = light * gains[x]!;
    out[at + x] = even;
    before += light;
    after += even;
  }
  sums[0] = before;
  sums[1] = after;
}

function scale(plane: Float32Array, factor: number): void {
  for (let i = 0; i < plane.length; i++) plane[i]! *= factor;
}
