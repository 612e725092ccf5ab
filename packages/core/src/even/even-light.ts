import { median } from '../numeric/median.js';
import { meanLight } from '../raster/mean-light.js';
import { createRaster, type Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import { cellLight, type JointRows } from './cell-light.js';
import { type Drift, type DriftTerm, fitDrift, legendre } from './fit-drift.js';

/** What is known of a picture whose light is to be made even. */
export interface EvenOptions {
  /** Along which axes; not along one on which the picture meets itself already. */
  readonly along: PerAxis<boolean>;
  /** A brick with its joint, pixels each way, or null where there are none. */
  readonly unit: PerAxis<number | null>;
  /** Its bed joints, or null. */
  readonly joints: JointRows | null;
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
/** Light of a cell under its neighbours', in logarithms, that is a shadow's. */
const shadow = -0.3;
/** Share of a picture that a shadow worth a word takes up. */
const leastShadow = 0.04;
/** Per cent under which light counts as even. */
const even = 0.5;

/**
 * Take slow changes of light and colour out of a picture. They would show as a grid where it repeats.
 * Anything that changes faster, brick from brick or patch from patch, stays, and so does the edge of
 * a shadow.
 *
 * @param raster - In linear light, left as it is.
 * @param options - What is known of it.
 * @returns The picture in even light, and how uneven it was.
 */
export function evenLight(raster: Raster, options: EvenOptions): EvenedPicture {
  const { along, unit, joints } = options;
  const cells = cellLight(raster, unit, joints);
  const fit = (logs: Float64Array): Drift => fitDrift(cells, logs, along);
  const green = fit(cells.logs[1]);
  const drifts = [fit(cells.logs[0]), green, fit(cells.logs[2])];
  const field = describe(green);
  const shadowed = findShadow(green.rest, cells.count);
  if (drifts.every(({ terms }) => terms.length === 0)) return { raster, ...field, shadowed };
  const out = createRaster(raster.width, raster.height);
  for (const [channel, { terms }] of drifts.entries()) {
    divide(raster, { channel, terms }, out.planes[channel]!);
  }
  keepMean(raster, out);
  return { raster: out, ...field, shadowed };
}

// A dark brick is one cell; a shadow lies over its neighbours too.
function findShadow(rest: Float64Array, count: PerAxis<number>): number {
  let dark = 0;
  for (let cell = 0; cell < rest.length; cell++) {
    const [column, row] = [cell % count.x, Math.floor(cell / count.x)];
    const about: number[] = [];
    for (let y = Math.max(0, row - 1); y <= Math.min(count.y - 1, row + 1); y++) {
      for (let x = Math.max(0, column - 1); x <= Math.min(count.x - 1, column + 1); x++) {
        about.push(rest[y * count.x + x]!);
      }
    }
    if (about.length >= 4 && median(Float64Array.from(about)) < shadow) dark++;
  }
  return dark >= leastShadow * rest.length ? dark / rest.length : 0;
}

type Field = Pick<EvenedPicture, 'strengthPercent' | 'lightest' | 'darkest'>;

// Green carries most of what the eye sees.
function describe({ terms }: Drift): Field {
  let low = { x: 0, y: 0, log: driftAt(terms, 0, 0) };
  let high = low;
  for (let y = -1; y <= 1; y += 0.25) {
    for (let x = -1; x <= 1; x += 0.25) {
      const place = { x, y, log: driftAt(terms, x, y) };
      if (place.log < low.log) low = place;
      if (place.log > high.log) high = place;
    }
  }
  const strengthPercent = 100 * (Math.exp(high.log - low.log) - 1);
  if (strengthPercent < even) return { strengthPercent, lightest: null, darkest: null };
  return { strengthPercent, lightest: nameOf(high), darkest: nameOf(low) };
}

function nameOf({ x, y }: { readonly x: number; readonly y: number }): string {
  const across = x < -0.4 ? 'left' : x > 0.4 ? 'right' : '';
  const down = y < -0.4 ? 'top' : y > 0.4 ? 'foot' : '';
  return [down, across].filter((word) => word !== '').join(' ') || 'middle';
}

function driftAt(terms: readonly DriftTerm[], x: number, y: number): number {
  let sum = 0;
  for (const term of terms) sum += term.amount * legendre(term.x, x) * legendre(term.y, y);
  return sum;
}

function divide(
  { width, height, planes }: Raster,
  { channel, terms }: { readonly channel: number; readonly terms: readonly DriftTerm[] },
  out: Float32Array,
): void {
  const plane = planes[channel]!;
  const across = Math.ceil(width / grid) + 1;
  const nodes = (row: number): Float64Array =>
    Float64Array.from({ length: across }, (_, i) =>
      Math.exp(-driftAt(terms, (2 * i * grid) / width - 1, (2 * row) / height - 1)),
    );
  let above = nodes(0);
  let below = nodes(grid);
  const line = new Float64Array(across);
  for (let y = 0; y < height; y++) {
    const whole = y - (y % grid);
    if (y === whole && y > 0) [above, below] = [below, nodes(whole + grid)];
    const part = (y - whole + 0.5) / grid;
    for (let i = 0; i < across; i++) line[i] = above[i]! + part * (below[i]! - above[i]!);
    for (let x = 0, at = y * width; x < width; x++, at++) {
      const place = (x + 0.5) / grid;
      const i = Math.floor(place);
      out[at] = plane[at]! * (line[i]! + (place - i) * (line[i + 1]! - line[i]!));
    }
  }
}

function keepMean(raster: Raster, out: Raster): void {
  const wanted = meanLight(raster);
  const got = meanLight(out);
  for (let channel = 0; channel < 3; channel++) {
    const plane = out.planes[channel]!;
    const factor = got[channel]! > 0 ? wanted[channel]! / got[channel]! : 1;
    for (let i = 0; i < plane.length; i++) plane[i]! *= factor;
  }
}
