import type { GrainOf } from './grain.js';
import { hashCell } from './hash-cell.js';
import { type CopyRun, findRun, listRuns } from './find-runs.js';
import { layLedges } from './lay-ledges.js';
import { listLayers } from './layers/list-layers.js';
import type { NoiseGround } from './octaves.js';
import { paintRow, type PaintRun, places, type RowVeil, type WallPicture } from './paint-row.js';
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
    const runs = runsAt(page.top + y);
    paintRow(wide, { picture, veil: veils(top + y), runs, grain: grain(top + y) });
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
  const lay = (number: number, veil: Veil): void => {
    const y = number * step + start;
    clearVeil(veil);
    around.mended.fill(0);
    const row: WeatherRow = { ...around, y, dirt: dirt(y) };
    findLedges(y, around);
    for (const layer of layers) layer(row, veil);
    finish(veil);
  };
  let above = createVeil(count);
  let below = createVeil(count);
  let held = NaN;
  let mixed = NaN;
  const pairs = ((count - 1) * places) / 2;
  const between = Array.from({ length: 13 }, () => new Float32Array(pairs));
  return (y) => {
    const number = Math.floor(y / places);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else lay(number, above);
      lay(number + 1, below);
      held = number;
    }
    // For two rows at a time, half way between them: finer steps are not seen.
    const pair = Math.floor(y / 2);
    if (pair !== mixed) {
      mixVeils(between, { above, below, share: (2 * pair + 0.5 - number * places) / places });
      mixed = pair;
    }
    return between;
  };
}

// Of joints, how they differ from bricks, which is not to be told through a coat.
function finish({ bricks, joints, coat }: Veil): void {
  for (let map = 0; map < 6; map++) {
    const [brick, joint] = [bricks[map]!, joints[map]!];
    for (let i = 0; i < brick.length; i++) joint[i] = (1 - coat[i]!) * (joint[i]! - brick[i]!);
  }
}

interface VeilPair {
  readonly above: Veil;
  readonly below: Veil;
  readonly share: number;
}

function mixVeils(out: readonly Float32Array[], { above, below, share }: VeilPair): void {
  for (let map = 0; map < 6; map++) {
    mixMap(out[map]!, { above: above.bricks[map]!, below: below.bricks[map]!, share });
    mixMap(out[map + 6]!, { above: above.joints[map]!, below: below.joints[map]!, share });
  }
  mixMap(out[12]!, { above: above.coat, below: below.coat, share });
}

interface MapPair {
  readonly above: Float32Array;
  readonly below: Float32Array;
  readonly share: number;
}

// For two dots at a time, half way between them.
function mixMap(out: Float32Array, { above, below, share }: MapPair): void {
  let left = above[0]! + share * (below[0]! - above[0]!);
  for (let i = 1, to = 0; i < above.length; i++, to += 2) {
    const right = above[i]! + share * (below[i]! - above[i]!);
    const step = right - left;
    out[to] = left + 0.125 * step;
    out[to + 1] = left + 0.625 * step;
    left = right;
  }
}

// Of the copies of the picture that a row goes through, which pixels it shows, and what each brick takes.
function createRuns(
  picture: WallPicture,
  ground: NoiseGround,
  span: { readonly left: number; readonly width: number },
): (tileRow: number) => readonly PaintRun[] {
  const { width, copies, bricks, origin } = picture;
  const from = span.left + origin.x;
  const across = listRuns(copies.x, from, span.width).map(({ start, end }) => ({
    start,
    column: Math.max(0, from - start),
    end: end - from,
    shares: new Float32Array(bricks === null ? 1 : bricks.x.length).fill(1),
  }));
  const fill = bricks && varyBricks(bricks, picture, ground);
  let held: CopyRun | null = null;
  return (tileRow) => {
    if (held === null || tileRow >= held.end) {
      held = findRun(copies.y, tileRow);
      if (fill) for (const { start, shares } of across) fill(start, held.start, shares);
    }
    const row = (tileRow - held.start) * width;
    return across.map(({ column, end, shares }) => ({ at: row + column, end, shares }));
  };
}
