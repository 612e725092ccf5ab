import { toSrgb } from '../../colour/srgb.js';
import { meanLight } from '../../raster/mean-light.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { LaidAlong } from '../../raster/list-again.js';
import { readyGrain, type WallGrain } from './grain.js';
import { layBricks, type SeenBricks } from './lay-bricks.js';
import { bleach } from './layers/fading.js';
import type { WallLight, WallPicture } from './paint-row.js';
import { type GivenSite, settleSite, type WeatherWallOptions, whole } from './given-site.js';
import { sideBySide } from './side-by-side.js';
import { seeHollows } from './see-hollows.js';
import type { Colour } from './veil.js';

/** A picture of a wall that is to be weathered. */
export interface WeatherWall {
  /** What is laid again and again, or all of it; it must stand until the last row is made. */
  readonly raster: Raster;
  /** How it is laid; side by side and one above the other unless told. */
  readonly copies?: PerAxis<LaidAlong>;
  /** What of it is brick and what is joint, or null where nobody knows: then its hollows count as joints. */
  readonly bricks: SeenBricks | null;
  /** Whether it is laid without mortar, as slates, tiles and boards are; false unless told. */
  readonly isDry?: boolean;
  /** Millimetres of the real wall to a pixel. */
  readonly mmPerDot: PerAxis<number>;
  /** The dot of what repeats that lies on the wall's datum. */
  readonly origin: PerAxis<number>;
  /** Whether its ends meet. */
  readonly meets: PerAxis<boolean>;
}

/** All that rows of a weathered wall are made from: numbers and arrays, which threads may hand to one another. */
export interface ReadyWeather {
  /** What is weathered. */
  readonly picture: WallPicture;
  /** How. */
  readonly given: GivenSite;
  /** Of the wall. */
  readonly grain: WallGrain;
}

/**
 * Ready a wall for its weather: soot, streaks, damp, rust, moss, salts, fading, grime and mended places, all of
 * them where they lie on the real wall, whatever part of it a page shows and however fine.
 *
 * @param wall - A picture of it; the likeness of its bricks is used up.
 * @param options - How strong each is, what chance begins with, and what the wall is like.
 * @returns What its rows are made from, or null where nothing is to be seen of any weather.
 * @throws RangeError when a strength is not 0 to 1, or the seed is not whole.
 */
export function readyWeather(wall: WeatherWall, options: WeatherWallOptions): ReadyWeather | null {
  const { isDry = false, mmPerDot, raster } = wall;
  const { width, height } = raster;
  const { repeats = { x: false, y: false } } = options;
  const copies = wall.copies ?? { x: { period: width }, y: { period: height } };
  const period = {
    x: repeats.x ? copies.x.period * mmPerDot.x : 0,
    y: repeats.y ? copies.y.period * mmPerDot.y : 0,
  };
  const given = settleSite(options, { isDry, period });
  if (given === null) return null;
  const picture = readyPicture(wall);
  return { picture, given, grain: readyGrain(given, wall.mmPerDot) };
}

function fadedOf(raster: Raster): Colour {
  const [red, green, blue] = meanLight(raster);
  return bleach([toSrgb(red), toSrgb(green), toSrgb(blue)]);
}

// A hollow is looked for among so many millimetres.
const hollowMm = 60;

function readyPicture(wall: WeatherWall): WallPicture {
  const { raster, bricks, mmPerDot, origin, meets } = wall;
  const { width, height } = raster;
  const { copies = { x: { starts: [0], period: width }, y: { starts: [0], period: height } } } =
    wall;
  const apart = {
    x: copies.x.period / copies.x.starts.length,
    y: copies.y.period / copies.y.starts.length,
  };
  const laid = bricks && layBricks(bricks, { width, height, meets, apart });
  const joints =
    laid?.joints ?? seeHollows(raster, { x: hollowMm / mmPerDot.x, y: hollowMm / mmPerDot.y });
  return {
    width,
    height,
    copies,
    pixels: readyPixels(wall, joints, laid?.labels ?? null),
    bricks: laid && { x: laid.x, y: laid.y },
    faded: fadedOf(raster),
    mmPerDot,
    origin: whole(origin),
  };
}

// What is laid again and again is made ready once; what is laid once, row by row, so that it is never held twice.
function readyPixels(
  { raster: { planes }, copies }: WeatherWall,
  joints: Float32Array,
  labels: WallLight['labels'],
): WallPicture['pixels'] {
  if (copies === undefined) return { planes, joints, labels };
  const own = labels === null ? new Int32Array(joints.length) : new Int32Array(labels);
  return { dots: sideBySide(planes, joints), labels: own };
}
