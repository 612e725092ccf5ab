import { whole } from './given-site.js';
import { grainRows } from './grain.js';
import { hashCell } from './hash-cell.js';
import { type CopyRun, findRun, listRuns } from './find-runs.js';
import { layLedges } from './lay-ledges.js';
import { listLayers } from './layers/list-layers.js';
import type { NoiseGround } from './octaves.js';
import {
  paintRow,
  placeDots,
  type PlaceDots,
  type RowToPaint,
  type RowVeil,
  veilStep,
  type WallPicture,
} from './paint-row.js';
import { type Ledge, rowNoise, type WallPoint, type WeatherRow, type WeatherSite } from './site.js';
import type { ReadyWeather } from './ready-weather.js';
import type { PerAxis } from '../../surface/measurement.js';
import { openDots } from './side-by-side.js';
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

/** Gives a row of a page by its number from the top, in a buffer that is written anew for the next. */
export type PageRow = (y: number) => Float32Array;

/**
 * Make the rows of a weathered wall. What a dot gets depends on where on the wall it lies and on nothing
 * else: places are counted from the datum, so that parts and pages meet.
 *
 * @param wall - What is weathered, and how.
 * @param page - Which dots.
 * @yields Each row, RGBRGB… from 0 to 1, in one buffer that is written anew for the next.
 */
export function* paintRows(wall: ReadyWeather, page: WeatherPage): Generator<Float32Array> {
  const rowAt = openPage(wall, page);
  for (let y = 0; y < page.height; y++) yield rowAt(y);
}

/**
 * Open a page at any of its rows; those that follow one another are made fastest.
 *
 * @param wall - What is weathered, and how.
 * @param page - Which dots.
 * @returns What gives its rows.
 */
export function openPage(wall: ReadyWeather, page: WeatherPage): PageRow {
  const { given } = wall;
  const { width, past = 0 } = page;
  const picture =
    page.origin === undefined ? wall.picture : { ...wall.picture, origin: whole(page.origin) };
  const { mmPerDot, origin } = picture;
  const places = placeDots(Math.max(mmPerDot.x, mmPerDot.y));
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
  const veils = createVeils(site, { places, mmPerDot: mmPerDot.y });
  const padded = (count - 1) * places;
  const span = { left: first * places, width: padded };
  const grain = grainRows(wall.grain, span);
  const runsAt = createRuns(picture, ground, span);
  const dotsAt = openDots(picture);
  const wide = new Float32Array(3 * padded);
  const from = 3 * (left - span.left);
  const row = wide.subarray(from, from + 3 * width);
  return (y) => {
    const shown = runsAt(page.top + y);
    const shownDots = dotsAt(shown.line);
    paintRow(wide, { ...shown, ...shownDots, places, veil: veils(top + y), grain: grain(top + y) });
    return row;
  };
}

interface RowsOfPlaces {
  readonly places: PlaceDots;
  readonly mmPerDot: number;
}

// Veils of two rows of places are held, and every row of dots lies between two.
function createVeils(
  site: WeatherSite,
  { places, mmPerDot }: RowsOfPlaces,
): (y: number) => RowVeil {
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
    const y = (number * places + 0.5) * mmPerDot;
    clearVeil(veil);
    around.mended.fill(0);
    const row: WeatherRow = { ...around, ...findLedges(y, around), y, dirt: dirt(y) };
    for (const layer of layers) layer(row, veil);
    return veil;
  };
  const veil = createVeil(count);
  let above = createLine(count);
  let below = createLine(count);
  let held = NaN;
  let mixed = NaN;
  const between = {
    bricks: new Float32Array((veilStep * (count - 1) * places) / 2),
    joints: new Float32Array(veilStep * count),
  };
  return (y) => {
    const number = Math.floor(y / places);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else pack(lay(number, veil), above);
      pack(lay(number + 1, veil), below);
      // Joints are narrow: no finer step is seen than from one row of places to the next.
      const share = (places - 1) / 2 / places;
      mixDown(between.joints, { above: above.joints, below: below.joints, share });
      held = number;
    }
    // For two rows at a time, half way between them: finer steps are not seen.
    const pair = Math.floor(y / 2);
    if (pair !== mixed) {
      const share = (2 * pair + 0.5 - number * places) / places;
      mixBoth(between.bricks, { above: above.bricks, below: below.bricks, share }, places);
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
function mixBoth(out: Float32Array, { above, below, share }: VeilPair, places: PlaceDots): void {
  const near = 0.5 / places;
  const far = places === 4 ? 2.5 / places : near;
  const next = places === 4 ? veilStep : 0;
  const apart = veilStep + next;
  for (let map = 0; map < veilStep - 1; map++) {
    let left = above[map]! + share * (below[map]! - above[map]!);
    for (let to = map, i = map + veilStep; to < out.length; to += apart, i += veilStep) {
      const over = above[i]!;
      const right = over + share * (below[i]! - over);
      const step = right - left;
      out[to + next] = left + far * step;
      out[to] = left + near * step;
      left = right;
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
