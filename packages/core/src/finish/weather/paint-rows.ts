import { whole } from './given-site.js';
import { grainRows } from './grain.js';
import { hashCell } from './hash-cell.js';
import { type CopyRun, findRun, listRuns } from './find-runs.js';
import type { NoiseGround } from './octaves.js';
import {
  type Colours,
  paintRow,
  placeDots,
  type RowToPaint,
  type WallPicture,
} from './paint-row.js';
import type { Ledge, WallPoint, WeatherSite } from './site.js';
import type { ReadyWeather } from './ready-weather.js';
import type { PerAxis } from '../../surface/measurement.js';
import { openDots } from './side-by-side.js';
import { openToned, replaceUnits, type ToneUnits } from './replace-units.js';
import { varyBricks } from './vary-bricks.js';
import { openVeils } from './open-veils.js';

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
  /** Whether nothing else is done to its rows, so that they are made as bytes. */
  readonly bare?: boolean;
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
export type PageRow = (y: number) => Colours;

/**
 * Make the rows of a weathered wall. What a dot gets depends on where on the wall it lies and on nothing
 * else: places are counted from the datum, so that parts and pages meet.
 *
 * @param wall - What is weathered, and how.
 * @param page - Which dots.
 * @yields Each row, RGBRGB… from 0 to 1, or bytes where it is bare, in one buffer that is written anew for the next.
 */
export function* paintRows(wall: ReadyWeather, page: WeatherPage): Generator<Colours> {
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
  const veils = openVeils(site, { places, mmPerDot: mmPerDot.y });
  const padded = (count - 1) * places;
  const span = { left: first * places, width: padded };
  const grain = grainRows(wall.grain, span);
  const tones = picture.bricks && replaceUnits(picture.bricks, picture, site);
  const runsAt = createRuns(picture, { ground, tones }, span);
  const toned = tones && openToned(span.width);
  const dotsAt = openDots(picture);
  const from = 3 * (left - span.left);
  const wide = page.bare === true ? bytesAt(from, 3 * padded) : new Float32Array(3 * padded);
  const row =
    wide instanceof Float32Array
      ? wide.subarray(from, from + 3 * width)
      : new Uint8Array(wide.buffer, wide.byteOffset + from, 3 * width);
  return (y) => {
    const { line, columns, firsts, shares, gains } = runsAt(page.top + y);
    const bare = { ...dotsAt(line), columns, firsts };
    const shown = toned === null || gains === null ? bare : toned(bare, gains);
    // Told one by one: spread out of others, each row would be of another form, and the kernel compiled for each.
    paintRow(wide, {
      picture: shown.picture,
      line: shown.line,
      columns: shown.columns,
      firsts,
      shares,
      places,
      veil: veils(top + y),
      grain: grain(top + y),
    });
    return row;
  };
}

// Bytes of which the row that begins with one of them lies at a whole word, as it is copied fastest.
function bytesAt(first: number, length: number): Uint8ClampedArray {
  return new Uint8ClampedArray(new ArrayBuffer(length + 8), (8 - (first % 8)) % 8, length);
}

interface RowOfCopies extends Pick<RowToPaint, 'line' | 'columns' | 'firsts' | 'shares'> {
  // What red, green and blue of each unit are multiplied by, copy by copy; null where all stay as they are.
  readonly gains: Float32Array | null;
}

// Which pixels of the picture a row shows, and what each brick takes of its copies.
function createRuns(
  picture: WallPicture,
  { ground, tones }: { readonly ground: NoiseGround; readonly tones: ToneUnits | null },
  span: { readonly left: number; readonly width: number },
): (tileRow: number) => RowOfCopies {
  const { width, copies, bricks, origin } = picture;
  const from = span.left + origin.x;
  const runs = listRuns(copies.x, from, span.width);
  const each = bricks === null ? 0 : bricks.x.length;
  const shares = new Float32Array(Math.max(1, runs.length * each)).fill(1);
  const gains = tones && new Float32Array(3 * shares.length);
  let isToned = false;
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
      isToned = false;
      for (const [i, { start }] of runs.entries()) {
        const own = shares.subarray(i * each, (i + 1) * each);
        fill?.(start, held.start, own);
        if (tones === null || gains === null) continue;
        const its = gains.subarray(3 * i * each, 3 * (i + 1) * each);
        isToned = tones({ x: start, y: held.start }, its, own) || isToned;
      }
    }
    const line = (tileRow - held.start) * width;
    return { line, columns, firsts, shares, gains: isToned ? gains : null };
  };
}
