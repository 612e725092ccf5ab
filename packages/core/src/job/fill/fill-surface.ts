import type { Warning } from '../../errors/warning.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import type { LightOn } from './wall-relief.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { dpi as toDpi, mmPerInch } from '../../units/units.js';
import type { LightReport } from '../mend/even-picture.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import { beginStep } from '../job-options.js';
import type { MadeSurface } from '../surface/made-surface.js';
import { type NextWall, nextWall } from './next-wall.js';
import type { OutlineReport } from './read-outline.js';
import { type MeasurementReport, reportMeasurement } from '../measure/report-measurement.js';
import { settleStrengths } from '../../finish/weather/strengths.js';
import { warnOfFoot } from '../weather/weather-options.js';
import { meanOfWall } from '../weather/mean-of-wall.js';
import { reportWeather, type WeatherReport } from '../weather/report-weather.js';
import {
  type Printing,
  printColours,
  type PrintingReport,
  reportPrinting,
  sharpenSurface,
  isChanging,
} from '../print/open-printing.js';
import { reportScale, type ScaleReport } from '../measure/report-scale.js';
import type { WallReliefReport } from './wall-relief-options.js';
import { toFigures } from '../to-figures.js';
import { writeFilled } from './write-filled.js';

/** An exactly sized picture, and how it came about. */
export interface FilledPhoto {
  /** The file written. */
  readonly output: string;
  /** Its columns, bleed included. */
  readonly widthPx: number;
  /** Its rows, bleed included. */
  readonly heightPx: number;
  /** What it is to be printed at. */
  readonly dpi: number;
  /** What its columns measure on paper. */
  readonly widthMm: number;
  /** What its rows measure on paper. */
  readonly heightMm: number;
  /** Of the model. */
  readonly scale: ScaleReport;
  /** What repeats in it. */
  readonly tile: {
    /** Columns. */
    readonly widthPx: number;
    /** Rows. */
    readonly heightPx: number;
    /** On paper, from side to side. */
    readonly widthMm: number;
    /** On paper, from top to bottom. */
    readonly heightMm: number;
    /** Courses in it, or null where there are none. */
    readonly courses: number | null;
  };
  /** The shape that it covers, or null for a rectangle. */
  readonly outline: OutlineReport | null;
  /** Where the wall round the corner lies, or null where nobody asked. */
  readonly nextWall: NextWall | null;
  /** What weather was laid on it, or null where none was asked for. */
  readonly weather: WeatherReport | null;
  /** What of the wall was lit, or null where nothing was asked for. */
  readonly relief: WallReliefReport | null;
  /** What was done to colours so that they print as on the screen, or null where nothing was asked for. */
  readonly printing: PrintingReport | null;
  /** How uneven the light was that was taken out, or null where it was left. */
  readonly light: LightReport | null;
  /** What rounding the tile to whole dots did to its scale, along the worse axis. */
  readonly scaleErrorPercent: number;
  /** Of the photo. */
  readonly measurement: MeasurementReport;
}

/**
 * Cover a part with a surface, and write it as a picture of exactly the size asked for.
 *
 * @param surface - What repeats.
 * @param cover - What to cover.
 * @param options - The scale, where to write, how rows are finished, and what must not be written over.
 * @returns What was written.
 * @throws TextureError when a file does not allow it.
 */
export async function fillSurface(
  surface: MadeSurface,
  cover: PartToCover,
  options: FillPhotoOptions & {
    /** Files that are read. */
    readonly inputs: readonly string[];
    /** What lights it, in this order; nothing unless told. */
    readonly lights?: readonly LightOn[];
    /** What is done to colours for a printer, or null. */
    readonly ready: Printing | null;
    /** What of the wall they light, or null. */
    readonly lit?: WallReliefReport | null;
  },
): Promise<{ readonly value: FilledPhoto; readonly warnings: readonly Warning[] }> {
  const { output, scale, dpi = toDpi(600), inputs, ready: printing } = options;
  const { weather = null, lights = [] } = options;
  const sharp = sharpenSurface(surface, printing, dpi);
  const { photo, measurement, lattice, factor } = sharp;
  const { raster: tile, light, plan, origin } = sharp.made;

  beginStep('writing', options);
  const wall = await weathered(sharp, cover, options);
  const mean = lights.length > 0 && meanOfWall({ tile, origin, wall });
  const finishes = mean === false ? [] : lights.map((lightOn) => lightOn(mean));
  const isCovered = wall !== null || finishes.length > 0;
  const printed = printColours({ tile, isCovered }, printing);
  const isPrinted = isChanging(printing);
  const written = await writeFilled(
    { raster: printed.tile, origin, wall, finishes: [...finishes, ...printed.finishes], isPrinted },
    cover,
    options,
    inputs,
  );

  const toMm = mmPerInch / dpi;
  const errors = [plan.x.scaleError, plan.y.scaleError];
  const worst = errors.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  return {
    value: {
      output,
      ...written.size,
      dpi,
      scale: reportScale(scale),
      tile: {
        widthPx: tile.width,
        heightPx: tile.height,
        widthMm: toFigures(tile.width * toMm, 6),
        heightMm: toFigures(tile.height * toMm, 6),
        courses: countCourses(tile, lattice, factor),
      },
      ...reportShape(cover, options),
      weather: weather && reportWeather(settleStrengths(weather), weather.seed),
      relief: options.lit ?? null,
      printing: reportPrinting(printing),
      light,
      scaleErrorPercent: toFigures(100 * worst, 3),
      measurement: reportMeasurement({ ...measurement, lattice }, photo),
    },
    warnings: [
      ...written.warnings,
      ...(weather === null ? [] : warnOfFoot(weather, options.datum)),
    ],
  };
}

// What weathers is loaded for those who want it.
async function weathered(
  surface: MadeSurface,
  cover: PartToCover,
  options: FillPhotoOptions & { readonly lit?: WallReliefReport | null },
): Promise<PageRows | null> {
  const { weather, lit = null } = options;
  if (weather === undefined) return null;
  const [{ weatherPart }, { partWeather }] = await Promise.all([
    import('../weather/weather-part.js'),
    import('./part-weather.js'),
  ]);
  return weatherPart(surface, partWeather(cover, { ...options, weather }, lit));
}

function reportShape(
  { part, outline }: PartToCover,
  { corner }: FillPhotoOptions,
): Pick<FilledPhoto, 'outline' | 'nextWall'> {
  const { width, dpi, datum = { x: 0, y: 0 } } = part;
  const wall = { width, dpi, datum, isShaped: outline !== null };
  return {
    outline: outline?.report ?? null,
    nextWall: corner === undefined ? null : nextWall(wall, corner),
  };
}

function countCourses(
  tile: { readonly width: number; readonly height: number },
  lattice: Lattice | null,
  factor: PerAxis<number>,
): number | null {
  if (lattice === null) return null;
  const { axis, course } = lattice;
  return Math.round((axis === 'x' ? tile.width : tile.height) / (course * factor[axis]));
}
