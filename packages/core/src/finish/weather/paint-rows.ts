import { whole } from './given-site.js';
import { grainRows } from './grain.js';
import { type CopyRun, findRun, listRuns } from './find-runs.js';
import type { NoiseGround } from './octaves.js';
import { gridOf, openPlaces, type PagePlaces } from './open-places.js';
import { type Colours, openPainter, type PaintedRun, type WallPicture } from './paint-row.js';
import type { Ledge, WallPoint } from './site.js';
import type { ReadyWeather } from './ready-weather.js';
import type { PerAxis } from '../../surface/measurement.js';
import { openDots } from './side-by-side.js';
import { replaceUnits, toneRow, type ToneUnits } from './replace-units.js';
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

/** Gives a row of a page's places by its number from the datum, as {@link openPlaces} does. */
export type PlaceRows = (row: number) => Float32Array;

/**
 * Make the rows of a weathered wall. What a dot gets depends on where on the wall it lies and on nothing
 * else: places are counted from the datum, so that parts and pages meet.
 *
 * @param wall - What is weathered, and how.
 * @param page - Which dots.
 * @param placesAt - Gives rows of its places; reckoned here unless told.
 * @yields Each row, RGBRGB… from 0 to 1, or bytes where it is bare, in one buffer that is written anew for the next.
 */
export function* paintRows(
  wall: ReadyWeather,
  page: WeatherPage,
  placesAt?: PlaceRows,
): Generator<Colours> {
  const rowAt = openPage(wall, page, placesAt);
  for (let y = 0; y < page.height; y++) yield rowAt(y);
}

/**
 * Say what the places of a page are reckoned from.
 *
 * @param wall - What is weathered, and how.
 * @param page - Which dots.
 * @returns All of it.
 */
export function placesOf(wall: ReadyWeather, page: WeatherPage): PagePlaces {
  const { given, picture } = wall;
  const { width, height, past = 0 } = page;
  const origin = originOf(picture, page);
  return {
    given: { ...given, ...page.places },
    mmPerDot: picture.mmPerDot,
    left: page.left - origin.x,
    top: page.top - origin.y,
    width,
    height,
    past,
  };
}

function originOf(picture: WallPicture, { origin }: WeatherPage): PerAxis<number> {
  return origin === undefined ? picture.origin : whole(origin);
}

/**
 * Open a page at any of its rows; those that follow one another are made fastest.
 *
 * @param wall - What is weathered, and how.
 * @param page - Which dots.
 * @param placesAt - Gives rows of its places; reckoned here unless told.
 * @returns What gives its rows.
 */
export function openPage(wall: ReadyWeather, page: WeatherPage, placesAt?: PlaceRows): PageRow {
  const picture = { ...wall.picture, origin: originOf(wall.picture, page) };
  const places = placesOf(wall, page);
  const { dots, first, count, site } = gridOf(places);
  const { left, top } = places;
  const span = { left: first * dots, width: (count - 1) * dots };
  const copies = listCopies(picture, span);
  const tones = picture.bricks && replaceUnits(picture.bricks, picture, site);
  const painter = openPainter({
    width: span.width,
    from: left - span.left,
    wanted: page.width,
    bare: page.bare === true,
    places: dots,
    pixels: picture.width,
    isToned: tones !== null,
    bricks: Math.max(1, copies.length * copyBricks(picture)),
    faded: picture.faded,
  });
  const { rows, shares, painted, toned } = painter;
  const placeRow = placesAt ?? openPlaces(places);
  const veils = openVeils(dots, rows, (number, row) => {
    row.set(placeRow(number));
    painter.tell(row);
  });
  const grain = grainRows(wall.grain, span);
  const rowOf = openCopies(picture, { copies, shares, tones, ground: site.ground });
  const fillRow = openDots(picture, painter.picture);
  return (y) => {
    const { line, gains } = rowOf(page.top + y);
    fillRow(line);
    grain(top + y, painter.grain);
    if (gains === null) {
      painter.paint(painter.picture, copies, veils(top + y));
    } else {
      toneRow(toned, { from: painter.picture, runs: copies, gains });
      painter.paint(toned, copies.map(toDots), veils(top + y));
    }
    return painted;
  };
}

// Dot by dot.
function toDots(run: PaintedRun): PaintedRun {
  return { ...run, pixel: run.from };
}

function copyBricks({ bricks }: WallPicture): number {
  return bricks === null ? 0 : bricks.x.length;
}

interface CopyOnPage extends PaintedRun {
  // Where it begins, in the tile's dots.
  readonly start: number;
}

// The copies of the picture that a page's columns show, from left to right.
function listCopies(
  picture: WallPicture,
  { left, width }: { readonly left: number; readonly width: number },
): readonly CopyOnPage[] {
  const first = left + picture.origin.x;
  return listRuns(picture.copies.x, first, width).map(({ start, end }, i) => {
    const from = Math.max(0, start - first);
    const to = Math.min(end - first, width);
    return { start, from, to, pixel: first + from - start, brick: i * copyBricks(picture) };
  });
}

interface CopiesToOpen {
  readonly copies: readonly CopyOnPage[];
  readonly shares: Float32Array;
  readonly tones: ToneUnits | null;
  readonly ground: NoiseGround;
}

interface RowOfCopies {
  // The pixel that the picture's row begins with.
  readonly line: number;
  // What red, green and blue of each unit are multiplied by, copy by copy; null where all stay as they are.
  readonly gains: Float32Array | null;
}

// Which row of the picture a row of the tile shows; where that is another copy's, its bricks' shares are filled in.
function openCopies(
  picture: WallPicture,
  { copies, shares, tones, ground }: CopiesToOpen,
): (tileRow: number) => RowOfCopies {
  const { width, bricks } = picture;
  const each = copyBricks(picture);
  const gains = tones && new Float32Array(3 * shares.length);
  const fill = bricks && varyBricks(bricks, picture, ground);
  let isToned = false;
  let held: CopyRun | null = null;
  shares.fill(1);
  return (tileRow) => {
    if (held === null || tileRow < held.start || tileRow >= held.end) {
      held = findRun(picture.copies.y, tileRow);
      isToned = false;
      for (const { start, brick } of copies) {
        const own = shares.subarray(brick, brick + each);
        fill?.(start, held.start, own);
        if (tones === null || gains === null) continue;
        const its = gains.subarray(3 * brick, 3 * (brick + each));
        isToned = tones({ x: start, y: held.start }, its, own) || isToned;
      }
    }
    return { line: (tileRow - held.start) * width, gains: isToned ? gains : null };
  };
}
