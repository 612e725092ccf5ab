import type { GrainOf } from './grain.js';
import { hashCell } from './hash-cell.js';
import { type CopyRun, findRun, listRuns } from './find-runs.js';
import { layLedges } from './lay-ledges.js';
import { listLayers } from './layers/list-layers.js';
import type { NoiseGround } from './octaves.js';
import {
  paintRow,
  places,
  type RowToPaint,
  type RowVeil,
  veilStep,
  type WallPicture,
} from './paint-row.js';
import { type Ledge, rowNoise, type WallPoint, type WeatherRow, type WeatherSite } from './site.js';
import type { PerAxis } from '../../surface/measurement.js';
import { varyBricks } from './vary-bricks.js';
import { clearVeil, createVeil, type Veil } from './veil.js';

/** Which of the wall's dots are wanted. */
export interface WeatherPage {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** The picture's column that lies on the page's first, of any sign. */
  readonly left: number;
  /** The picture's row that lies on the page's first, of any sign. */
  readonly top: number;
  /** The picture's dot that lies on the datum; the wall's own unless told. */
  readonly origin?: PerAxis<number>;
  /** Which of several walls with one picture it shows, from 0: each has a past of its own. 0 unless told. */
  readonly past?: number;
  /** What is where on it, where that is not the wall's own. */
  readonly places?: {
    /** What water runs from. */
    readonly ledges: readonly Ledge[];
    /** Iron, or null for a little of it by chance. */
    readonly fixings: readonly WallPoint[] | null;
    /** Where the wall stands on the ground, mm below the datum, or null where it stands nowhere. */
    readonly foot: number | null;
  };
}

/** All that is known of the wall but what a page shows of it. */
export interface GivenSite
  extends Omit<WeatherSite, 'ground' | 'run'>, Pick<NoiseGround, 'seed' | 'period'> {
  /** Gives its grain. */
  readonly grainOf: GrainOf;
}

/**
 * Make the rows of a weathered wall. What a dot gets depends on where on the wall it lies and on nothing
 * else: places are counted from the datum, so that parts and pages meet.
 *
 * @param wall - A picture of it.
 * @param given - How it is weathered.
 * @param page - Which dots.
 * @yields Each row, RGBRGB… from 0 to 1, in one buffer that is written anew for the next.
 */
export function* paintRows(
  wall: WallPicture,
  given: GivenSite,
  page: WeatherPage,
): Generator<Float32Array> {
  const { width, height, past = 0 } = page;
  const picture = page.origin === undefined ? wall : { ...wall, origin: whole(page.origin) };
  const { mmPerDot, origin } = picture;
  // In dots from the datum.
  const left = page.left - origin.x;
  const top = page.top - origin.y;
  const first = Math.floor(left / places);
  const count = Math.floor((left + width - 1) / places) - first + 2;
  const finest = places * Math.max(mmPerDot.x, mmPerDot.y);
  const { period } = given;
  const seed = past === 0 ? given.seed : hashCell(past, 0, given.seed) | 0;
  const ground = { seed, period, finest };
  const run = { first, count, step: places * mmPerDot.x, start: mmPerDot.x / 2 };
  const site: WeatherSite = { ...given, ...page.places, ground, run };
  const veils = createVeils(site, places * mmPerDot.y, mmPerDot.y / 2);
  const padded = (count - 1) * places;
  const span = { left: first * places, width: padded };
  const grain = given.grainOf(span);
  const runsAt = createRuns(picture, ground, span);
  const wide = new Float32Array(3 * padded);
  const from = 3 * (left - span.left);
  const row = wide.subarray(from, from + 3 * width);
  for (let y = 0; y < height; y++) {
    const shown = runsAt(page.top + y);
    paintRow(wide, { picture, ...shown, veil: veils(top + y), grain: grain(top + y) });
    yield row;
  }
}

/**
 * Bring a place to the nearest dot.
 *
 * @param place - In dots.
 * @returns Whole numbers.
 */
export function whole(place: PerAxis<number>): PerAxis<number> {
  return { x: Math.round(place.x), y: Math.round(place.y) };
}

// Veils of two rows of places are held, and every row of dots lies between two.
function createVeils(site: WeatherSite, step: number, start: number): (y: number) => RowVeil {
  const { count } = site.run;
  const layers = listLayers(site);
  const findLedges = layLedges(site);
  const dirt = rowNoise(site, { id: 11, cell: 1400, count: 5, gain: 0.65 });
  const around = {
    fall: new Float32Array(count),
    rise: new Float32Array(count),
    end: new Float32Array(count),
    mended: new Float32Array(count),
  };
  const lay = (number: number, veil: Veil): Veil => {
    const y = number * step + start;
    clearVeil(veil);
    around.mended.fill(0);
    const row: WeatherRow = { ...around, y, dirt: dirt(y) };
    findLedges(y, around);
    for (const layer of layers) layer(row, veil);
    return veil;
  };
  const veil = createVeil(count);
  let above = createLine(count);
  let below = createLine(count);
  let held = NaN;
  let mixed = NaN;
  const line = createLine(count);
  const bricks = new Float32Array((veilStep * (count - 1) * places) / 2);
  const between = { bricks, joints: line.joints };
  return (y) => {
    const number = Math.floor(y / places);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else pack(lay(number, veil), above);
      pack(lay(number + 1, veil), below);
      held = number;
    }
    // For two rows at a time, half way between them: finer steps are not seen.
    const pair = Math.floor(y / 2);
    if (pair !== mixed) {
      const share = (2 * pair + 0.5 - number * places) / places;
      mixDown(line.bricks, { above: above.bricks, below: below.bricks, share });
      mixDown(line.joints, { above: above.joints, below: below.joints, share });
      mixAcross(bricks, line.bricks);
      mixed = pair;
    }
    return between;
  };
}

function createLine(count: number): RowVeil {
  return {
    bricks: new Float32Array(veilStep * count),
    joints: new Float32Array(veilStep * count),
  };
}

// All that lies on a place side by side: of joints, how they differ from bricks, which is not to be told through a
// coat.
function pack({ bricks, joints, coat }: Veil, out: RowVeil): void {
  for (let map = 0; map < 6; map++) {
    const brick = bricks[map]!;
    const joint = joints[map]!;
    for (let i = 0, to = map; i < coat.length; i++, to += veilStep) {
      out.bricks[to] = brick[i]!;
      out.joints[to] = (1 - coat[i]!) * (joint[i]! - brick[i]!);
    }
  }
  for (let i = 0, to = 6; i < coat.length; i++, to += veilStep) out.bricks[to] = coat[i]!;
}

interface VeilPair {
  readonly above: Float32Array;
  readonly below: Float32Array;
  readonly share: number;
}

function mixDown(out: Float32Array, { above, below, share }: VeilPair): void {
  for (let i = 0; i < out.length; i++) out[i] = above[i]! + share * (below[i]! - above[i]!);
}

// For two dots at a time, half way between them.
function mixAcross(out: Float32Array, line: Float32Array): void {
  for (let i = 0, to = 0; to < out.length; i += veilStep, to += 2 * veilStep) {
    for (let map = 0; map < veilStep - 1; map++) {
      const left = line[i + map]!;
      const step = line[i + veilStep + map]! - left;
      out[to + map] = left + 0.125 * step;
      out[to + veilStep + map] = left + 0.625 * step;
    }
  }
}

// Which pixels of the picture a row shows, and what each brick takes of its copies.
function createRuns(
  picture: WallPicture,
  ground: NoiseGround,
  span: { readonly left: number; readonly width: number },
): (tileRow: number) => Pick<RowToPaint, 'line' | 'columns' | 'firsts' | 'shares'> {
  const { width, copies, bricks, origin } = picture;
  const from = span.left + origin.x;
  const runs = listRuns(copies.x, from, span.width);
  const each = bricks === null ? 0 : bricks.x.length;
  const shares = new Float32Array(Math.max(1, runs.length * each)).fill(1);
  const columns = new Int32Array(span.width);
  const firsts = new Int32Array(span.width);
  for (const [i, { start, end }] of runs.entries()) {
    for (let x = Math.max(0, start - from); x < Math.min(end - from, span.width); x++) {
      columns[x] = from + x - start;
      firsts[x] = i * each;
    }
  }
  const fill = bricks && varyBricks(bricks, picture, ground);
  let held: CopyRun | null = null;
  return (tileRow) => {
    if (held === null || tileRow >= held.end) {
      held = findRun(copies.y, tileRow);
      for (const [i, { start }] of runs.entries()) {
        fill?.(start, held.start, shares.subarray(i * each, (i + 1) * each));
      }
    }
    return { line: (tileRow - held.start) * width, columns, firsts, shares };
  };
}
