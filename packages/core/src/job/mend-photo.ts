import type { CourseReference } from '../catalogue/course-reference.js';
import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { toRows } from '../raster/row-source.js';
import { type Photo, readPhoto } from '../read/read-photo.js';
import { findCopies } from '../seam/find-copies.js';
import { inspectSeams, type Seam } from '../seam/inspect-seams.js';
import { type MendMethod, mendTile } from '../seam/mend-tile.js';
import type { Lattice, Measurement } from '../surface/measurement.js';
import { checkOutput } from '../write/check-output.js';
import { writePicture } from '../write/write-picture.js';
import type { RepeatAxis } from './draw-seams.js';
import { findRepeat } from './find-repeat.js';
import { findMeasurement, type FoundMeasurement, type MeasureRefusal } from './find-measurement.js';
import { beginStep, type JobOptions } from './job-options.js';
import { judgeSeams } from './judge-seams.js';
import { reportSeam } from './report-seam.js';
import { toFigures } from './to-figures.js';
import { warnOfCopies } from './warn-of-copies.js';

/** What {@link mendPhoto} needs to know. */
export interface MendPhotoOptions extends JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Which way the result is to repeat; `both` unless told. */
  readonly axis?: RepeatAxis;
  /** How its ends are joined; `auto`, which is `gradient`, unless told. */
  readonly method?: 'auto' | 'blend' | 'cut' | 'gradient';
  /** What its courses are. Without it they are looked for, and a picture may have none. */
  readonly course?: CourseReference;
  /** Least share of the photo to keep, in per cent, above 0 to 100. */
  readonly keep?: number;
}

/** A picture that repeats, and how it came about. */
export interface MendedPhoto {
  /** The file written. */
  readonly output: string;
  /** Its columns. */
  readonly width: number;
  /** Its rows. */
  readonly height: number;
  /** Courses in it, or null where none were found. */
  readonly courses: number | null;
  /** Bricks along a course, halves counted, or null where none were found. */
  readonly bricks: number | null;
  /** Share of the photo that was kept. */
  readonly keptPercent: number;
  /** How its ends were joined; `none` where they met already. */
  readonly method: MendMethod;
  /** Laid side by side. */
  readonly x: Seam;
  /** Laid one above the other. */
  readonly y: Seam;
}

/**
 * Make a photo repeat without a seam.
 *
 * @param path - Where the photo lies.
 * @param options - Where to write it, and how to mend.
 * @returns What was written, or why the photo does not allow it.
 * @throws RangeError when `keep` is not above 0 to 100.
 * @throws TextureError when a file does not allow it.
 */
export async function mendPhoto(
  path: string,
  options: MendPhotoOptions,
): Promise<Outcome<MendedPhoto, MeasureRefusal | 'too-few-repeats'>> {
  // The axis is that of the repeat, not of the courses.
  const { axis = 'both', ...others } = options;
  const { output, method = 'auto', keep = 60 } = others;
  if (!(keep > 0 && keep <= 100)) throw outOfRange('above 0 to 100 per cent', 'keep', keep);
  await checkOutput(output, { inputs: [path] });
  beginStep('reading', options);
  const photo = await readPhoto(path);
  const found = await findMeasurement(photo, others);
  if (!found.ok && found.code !== 'not-measured') return found;
  const known = takeKnown(found, photo);
  const { lattice, repeat } = findRepeat(photo.raster, known.lattice);

  beginStep('mending', options);
  const mended = mendTile(photo.raster, { repeat, axis, method, keep });
  if (!mended.ok) return { ...mended, message: `${showPath(path)}: ${mended.message}` };
  const tile = mended.value;
  const { x, y } = inspectSeams(tile.raster);

  beginStep('writing', options);
  await writePicture(output, toRows(tile.raster), { inputs: [path] });
  const { width, height } = tile.raster;
  const counts = count(tile.raster, lattice);
  return {
    ok: true,
    value: {
      output,
      width,
      height,
      ...counts,
      keptPercent: toFigures(tile.keptPercent, 4),
      method: tile.method,
      x: reportSeam(x),
      y: reportSeam(y),
    },
    warnings: [
      ...photo.warnings,
      ...known.warnings,
      ...mended.warnings,
      ...judgeSeams({ x, y }, axis),
    ],
  };
}

// What was measured, where anything was; copies tell of themselves either way.
function takeKnown(
  found: Outcome<FoundMeasurement, MeasureRefusal>,
  photo: Photo,
): Pick<Measurement, 'lattice'> & { readonly warnings: readonly Warning[] } {
  if (!found.ok) {
    return { lattice: null, warnings: warnOfCopies(findCopies(photo.raster), photo) };
  }
  const { measurement, copies = findCopies(photo.raster) } = found.value;
  return {
    lattice: measurement.lattice,
    warnings: [...found.warnings, ...warnOfCopies(copies, photo)],
  };
}

function count(
  tile: { readonly width: number; readonly height: number },
  lattice: Lattice | null,
): Pick<MendedPhoto, 'courses' | 'bricks'> {
  if (lattice === null) return { courses: null, bricks: null };
  const { course, brick } = lattice;
  return {
    courses: Math.round(tile.height / course),
    bricks: brick === null ? null : Math.round((2 * tile.width) / brick) / 2,
  };
}
