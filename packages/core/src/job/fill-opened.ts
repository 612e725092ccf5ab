import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';
import type { OpenedPhoto } from '../read/open-photo.js';
import { judgeResolution } from '../scale/judge-resolution.js';
import { inspectSeams } from '../seam/inspect-seams.js';
import type { Lattice, PerAxis } from '../surface/measurement.js';
import { dpi as toDpi, mmPerInch } from '../units/units.js';
import type { LightReport } from './even-picture.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import { findJoint } from './find-joint.js';
import type { MeasureRefusal } from './find-measurement.js';
import { findRepeat } from './find-repeat.js';
import { hintFormats } from './hint-formats.js';
import { beginStep } from './job-options.js';
import { judgeDrift } from './judge-drift.js';
import { judgeSeams } from './judge-seams.js';
import { makeTile, type TileRefusal } from './make-tile.js';
import { measureReduced } from './measure-reduced.js';
import { type NextWall, nextWall } from './next-wall.js';
import { openPicture } from './open-picture.js';
import type { OutlineReport } from './read-outline.js';
import { type MeasurementReport, reportMeasurement } from './report-measurement.js';
import { refuseDoubtful } from './refuse-doubtful.js';
import { remindOfTerms } from './remind-of-terms.js';
import { reportScale, type ScaleReport } from './report-scale.js';
import { toFigures } from './to-figures.js';
import { warnOfCopies } from './warn-of-copies.js';
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
  /** How uneven the light was that was taken out, or null where it was left. */
  readonly light: LightReport | null;
  /** What rounding the tile to whole dots did to its scale, along the worse axis. */
  readonly scaleErrorPercent: number;
  /** Of the photo. */
  readonly measurement: MeasurementReport;
}

/**
 * Do the whole job with a photo that is open: measure it, bring it to a model's scale, make it repeat,
 * and write a picture of exactly the size asked for.
 *
 * @param opened - The photo.
 * @param cover - What to cover.
 * @param options - What is known of the photo, the scale, and where to write.
 * @returns What was written, or why the photo does not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function fillOpened(
  opened: OpenedPhoto,
  cover: PartToCover,
  options: FillPhotoOptions,
): Promise<Outcome<FilledPhoto, MeasureRefusal | TileRefusal | 'scale-doubtful'>> {
  const { output, scale, dpi = toDpi(600), method = 'auto', even = true } = options;
  const { path } = opened.look;
  // Decoded in threads of its own while the smaller picture is measured; whoever asks is told of
  // what went wrong.
  opened.lines().catch(() => undefined);
  const { photo, found } = await measureReduced(opened, options);
  if (!found.ok) return hintFormats(found, photo);
  const { measurement, kept, copies } = found.value;
  const doubtful = refuseDoubtful(measurement, path);
  if (doubtful) return doubtful;
  const { mmPerPx } = measurement;
  const resolution = judgeResolution({
    mmPerPx,
    scale: scale.ratio,
    dpi,
    joint: findJoint(measurement.reference),
  });
  const { factor } = resolution;
  const picture = await openPicture(opened, { photo, measurement, factor });
  const repeat = findRepeat(picture);
  const made = makeTile(picture, {
    ...options,
    ...repeat,
    seams: found.value.seams ?? inspectSeams(picture.look),
    factor,
    dpi,
    method,
    even,
  });
  if (!made.ok) return { ...made, message: `${showPath(path)}: ${made.message}` };
  const { raster: tile, mended, light, plan, origin } = made.value;

  beginStep('writing', options);
  const inputs = [path, ...(options.outline === undefined ? [] : [options.outline.path])];
  const written = await writeFilled({ raster: tile, origin }, cover, options, inputs);

  const toMm = mmPerInch / dpi;
  const errors = [plan.x.scaleError, plan.y.scaleError];
  const worst = errors.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  return {
    ok: true,
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
        courses: countCourses(tile, repeat.lattice, factor),
      },
      ...reportShape(cover, options),
      light,
      scaleErrorPercent: toFigures(100 * worst, 3),
      measurement: reportMeasurement({ ...measurement, lattice: repeat.lattice }, photo),
    },
    warnings: [
      ...photo.warnings,
      ...found.warnings,
      ...warnOfCopies(copies, photo),
      ...resolution.warnings,
      ...made.warnings,
      ...written.warnings,
      // Where nothing was laid side by side yet: of several seams alike, none stands out.
      ...judgeSeams(inspectSeams(mended), 'both'),
      ...judgeDrift(plan),
      ...remindOfTerms(path, kept),
    ],
  };
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
