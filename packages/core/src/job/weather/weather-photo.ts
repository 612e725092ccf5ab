import { withLimits } from '../../read/held-limits.js';
import { setImmediate } from 'node:timers/promises';
import { decodeSrgb } from '../../colour/srgb.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { WeatherName, WeatherStrengths } from '../../finish/weather/strengths.js';
import { finishRows, wallGround } from '../../fill/finish-rows.js';
import { type ReadyWeather, readyWeather } from '../../finish/weather/ready-weather.js';
import { createRaster, type Raster } from '../../raster/raster.js';
import { type RowSource, toRows } from '../../raster/row-source.js';
import type { Photo } from '../../read/photo.js';
import { openPhoto } from '../../read/open-photo.js';
import { inspectSeams } from '../../seam/inspect/inspect-seams.js';
import type { Lattice, Measurement, PerAxis } from '../../surface/measurement.js';
import { checkOutput } from '../../write/check-output.js';
import { writePicture } from '../../write/write-picture.js';
import type { RepeatAxis } from '../inspect/draw-seams.js';
import { findMeasurement, type MeasureRefusal } from '../measure/find-measurement.js';
import { findRepeat } from '../measure/find-repeat.js';
import { hintFormats } from '../measure/hint-formats.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { judgeSeams } from '../inspect/judge-seams.js';
import { layJoints } from '../mend/lay-joints.js';
import { openLevel } from '../open/open-level.js';
import { checkReference, type ReferenceOptions } from '../measure/reference-options.js';
import { refuseDoubtful } from '../open/refuse-doubtful.js';
import { type MeasurementReport, reportMeasurement } from '../measure/report-measurement.js';
import { isDryLaid } from './is-dry-laid.js';
import { reportWeather, type WeatherReport } from './report-weather.js';
import { toFigures } from '../to-figures.js';
import { seeWallBricks } from './see-wall-bricks.js';
import {
  checkWeather,
  isWeatherTold,
  warnOfFoot,
  type WeatherOptions,
  showPlaces,
} from './weather-options.js';
import { weatherInThreads } from './weather-threads.js';
import { checkDatum } from '../fill/next-wall.js';

/** What {@link weatherPhoto} needs to know; its lengths are those of the real wall. */
export interface WeatherPhotoOptions extends WeatherOptions, ReferenceOptions, JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Millimetres of the real wall from its datum to the photo's top left corner; 0,0 unless told. */
  readonly datum?: PerAxis<number>;
  /** Which way the photo repeats, and is to go on repeating; none unless told. */
  readonly repeat?: RepeatAxis;
}

/** A weathered photo. */
export interface WeatheredPhoto {
  /** The file written. */
  readonly output: string;
  /** Its columns. */
  readonly width: number;
  /** Its rows. */
  readonly height: number;
  /** What was laid on it. */
  readonly weather: WeatherReport;
  /** Which way it still repeats, or null where nobody asked. */
  readonly repeat: RepeatAxis | null;
  /** Of the photo. */
  readonly measurement: MeasurementReport;
}

const whole = { from: { x: 0, y: 0 }, factor: { x: 1, y: 1 } };
// What goes by a ledge or the ground.
const placed = ['streaks', 'damp'] as const;

/**
 * Weather a photo of a wall: at its own size, everything placed in real millimetres.
 *
 * @param path - Where the photo lies.
 * @param options - What is known of it, how strong the weather is, and where to write.
 * @returns What was written, or why the photo could not be measured.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function weatherPhoto(
  path: string,
  options: WeatherPhotoOptions,
): Promise<Outcome<WeatheredPhoto, MeasureRefusal | 'scale-doubtful' | 'too-small' | 'too-large'>> {
  return withLimits(options, () => weatherWithin(path, options));
}

// Seen of 96 million pixels, straightened: both pictures, twelve each, and what is asked of bricks.
const perPixel = 33;

async function weatherWithin(
  path: string,
  options: WeatherPhotoOptions,
): Promise<Outcome<WeatheredPhoto, MeasureRefusal | 'scale-doubtful' | 'too-small' | 'too-large'>> {
  checkReference(options);
  const { output, repeat, datum = { x: 0, y: 0 } } = options;
  checkDatum(datum);
  const wish: WeatherOptions = isWeatherTold(options) ? options : { ...options, preset: 'settled' };
  const { strengths, warnings } = fitRepeat(checkWeather(wish), options);
  await checkOutput(output, { inputs: [path] });
  beginStep('reading', options);
  const { look: photo } = await openPhoto(path, { perPixel });
  const found = await findMeasurement(photo, options);
  if (!found.ok) return hintFormats(found, photo, options);
  const { measurement } = found.value;
  // What its file was decoded to is given back between two turns of the loop alone.
  await setImmediate();
  const refused = refuseDoubtful(measurement, path) ?? refuseExtent(measurement, photo);
  if (refused) return refused;
  beginStep('weathering', options);
  const picture = openLevel(photo.raster, { ...measurement, enough: 1 });
  const { look } = picture;
  const { lattice } = findRepeat(picture);
  const repeats = repeatsOf(repeat);
  const { mmPerPx } = measurement;
  const ready = readyWeather(
    {
      raster: look,
      bricks: lattice && seePhoto(look, lattice, repeats),
      isDry: isDryLaid(measurement.reference),
      mmPerDot: mmPerPx,
      origin: { x: -datum.x / mmPerPx.x, y: -datum.y / mmPerPx.y },
      meets: repeats,
    },
    { ...wish, ...strengths, repeats, foot: wish.foot ?? datum.y + look.height * mmPerPx.y },
  );
  beginStep('writing', options);
  const source = weatheredOrBare(photo.raster, look, ready);
  await writePicture(output, source, { inputs: [path] });
  return {
    ok: true,
    value: {
      output,
      width: source.width,
      height: source.height,
      weather: reportWeather(strengths, options.seed),
      repeat: repeat ?? null,
      measurement: reportMeasurement({ ...measurement, lattice }, photo),
    },
    warnings: [
      ...photo.warnings,
      ...found.warnings,
      ...warnings,
      ...warnOfFoot({ ...wish, ...strengths }, options.datum),
      ...(repeat === undefined ? [] : judgeWritten(source, repeat)),
    ],
  };
}

// What no weather lies on is left as it is, however askew.
function weatheredOrBare(bare: Raster, look: Raster, ready: ReadyWeather | null): RowSource {
  if (ready === null) return toRows(bare);
  const { width, height } = look;
  const page = { width, height, left: 0, top: 0, dpi: null, piece: height, gap: 0 };
  return finishRows(wallGround(weatherInThreads(ready)), page, []);
}

function judgeWritten(source: RowSource, repeat: RepeatAxis): readonly Warning[] {
  const { width, height } = source;
  const raster = createRaster(width, height);
  let y = 0;
  for (const row of source.rows()) {
    decodeSrgb(row, planesOf(raster, width * y, width));
    y++;
  }
  return judgeSeams({ raster, seams: inspectSeams(raster) }, repeat);
}

function planesOf({ planes }: Raster, from: number, count: number): Raster['planes'] {
  const [red, green, blue] = planes;
  const row = (plane: Float32Array): Float32Array => plane.subarray(from, from + count);
  return [row(red), row(green), row(blue)];
}

function repeatsOf(repeat: RepeatAxis | undefined): PerAxis<boolean> {
  return { x: repeat === 'x' || repeat === 'both', y: repeat === 'y' || repeat === 'both' };
}

// What lies on a wall is counted by its millimetres: past these nobody meant the size that was told.
const leastWall = 10;
const mostWall = 1e6;

function refuseExtent(
  { mmPerPx }: Measurement,
  { path, width, height }: Photo,
): Extract<Outcome<never, 'too-small' | 'too-large'>, { readonly ok: false }> | null {
  const sides = [width * mmPerPx.x, height * mmPerPx.y];
  const isSmall = Math.min(...sides) < leastWall;
  if (!isSmall && Math.max(...sides) <= mostWall) return null;
  const shown = sides.map((mm) => toFigures(mm / 1000, 3)).join(' x ');
  return {
    ok: false,
    code: isSmall ? 'too-small' : 'too-large',
    message: `${showPath(path)} shows ${shown} m of wall, and weather is laid on 10 mm to 1 km of it`,
    hint: 'say how large something in it really is, or name its courses',
  };
}

// A picture that repeats has no datum, and one that repeats up and down neither top nor foot.
function fitRepeat(
  strengths: WeatherStrengths,
  options: WeatherPhotoOptions,
): { readonly strengths: WeatherStrengths; readonly warnings: readonly Warning[] } {
  const { repeat, facing } = options;
  if (repeat === undefined) return { strengths, warnings: [] };
  const places = { ledges: options.ledges, fixings: options.fixings, datum: options.datum };
  for (const [name, value] of Object.entries(places)) {
    if (value === undefined) continue;
    throw outOfRange('a picture that does not repeat', name, showPlaces([value].flat()));
  }
  if (repeat === 'x') return { strengths, warnings: [] };
  if (options.foot !== undefined) {
    throw outOfRange('a picture that does not repeat up and down', 'foot', `${options.foot} mm`);
  }
  const bare: readonly WeatherName[] =
    facing === undefined || facing === 'south' ? [...placed, 'moss'] : placed;
  const asked = bare.find((name) => (options[name] ?? 0) > 0);
  if (asked !== undefined) {
    throw outOfRange('0 where a picture repeats up and down', asked, options[asked]);
  }
  const lost = bare.filter((name) => strengths[name] > 0);
  if (lost.length === 0) return { strengths, warnings: [] };
  const none = Object.fromEntries(lost.map((name) => [name, 0]));
  const message = `a picture that repeats up and down has no ledge and no foot: left out is ${lost.join(', ')}`;
  return { strengths: { ...strengths, ...none }, warnings: [{ code: 'not-in-a-tile', message }] };
}

function seePhoto(
  look: Raster,
  lattice: Lattice,
  repeats: PerAxis<boolean>,
): ReturnType<typeof seeWallBricks> {
  const { axis, course, repeat } = lattice;
  const along = repeat[axis === 'y' ? 'x' : 'y'];
  const down = repeat[axis];
  const bond =
    along === null || down === null
      ? null
      : { length: along, courses: Math.max(1, Math.round(down / course)) };
  return seeWallBricks(look, { ...layJoints(lattice, whole), bond, meets: repeats });
}
