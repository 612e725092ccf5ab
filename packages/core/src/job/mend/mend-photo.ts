import { withLimits } from '../../read/held-limits.js';
import type { CourseReference } from '../../catalogue/course-reference.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import { toRows } from '../../raster/row-source.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import type { JudgedJoin } from '../../seam/mend/choose-join.js';
import { unknownSeam } from '../../seam/inspect/inspect-axis.js';
import type { Seam } from '../../seam/inspect/inspect-seams.js';
import type { HealedBricks } from '../../seam/mend/heal-bricks.js';
import { mendBest } from '../../seam/mend/mend-best.js';
import type { MendMethod, MendOptions, Tile } from '../../seam/mend/mend-tile.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { readUnchanged } from '../../read/read-unchanged.js';
import { checkOutput } from '../../write/check-output.js';
import { copyPicture, isNamedFor } from '../../write/copy-picture.js';
import { writePicture } from '../../write/write-picture.js';
import { calmMended, type CalmReport } from './calm-mended.js';
import type { RepeatAxis } from '../inspect/draw-seams.js';
import type { LightReport } from './even-picture.js';
import { findFew } from '../inspect/find-few.js';
import type { MeasureRefusal } from '../measure/find-measurement.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { judgeSeams } from '../inspect/judge-seams.js';
import { type OpenedEven, openEven } from './open-even.js';
import { layJoints } from './lay-joints.js';
import { reportJoins } from './report-joins.js';
import { reportSeam } from '../inspect/report-seam.js';
import { toFigures } from '../to-figures.js';
import { warnOfCopies } from '../measure/warn-of-copies.js';
import { warnOfFew } from '../inspect/warn-of-few.js';
import { whyJoined } from './why-joined.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** What {@link mendPhoto} needs to know. */
export interface MendPhotoOptions extends Pick<ReferenceOptions, 'references'>, JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Which way the result is to repeat; `both` unless told. */
  readonly axis?: RepeatAxis;
  /** How its ends are joined; `auto`, which is what shows least, unless told. */
  readonly method?: 'auto' | 'blend' | 'cut' | 'gradient';
  /** What its courses are. Without it they are looked for, and a picture may have none. */
  readonly course?: CourseReference;
  /** How far it may be straightened; `full` unless told. */
  readonly straighten?: Straighten;
  /** Whether slow changes of light and colour are taken out; true unless told. */
  readonly even?: boolean;
  /** Least share of the photo to keep, in per cent, above 0 to 100. */
  readonly keep?: number;
  /** Whether what would catch the eye at each repeat is replaced; false unless told. */
  readonly calm?: boolean;
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
  /** How its ends were joined; `none` where they met already or nothing was left to join them in. */
  readonly method: MendMethod;
  /** Why so, and why it is no longer, in words; null where there was no choice. */
  readonly why: string | null;
  /** How well each way did that was tried, the one taken first; null where nothing was joined. */
  readonly joins: PerAxis<readonly JudgedJoin[] | null>;
  /** What became of bricks that no cut could leave whole. */
  readonly healed: HealedBricks;
  /** What was replaced because it would catch the eye, or null where nobody asked. */
  readonly calmed: CalmReport | null;
  /** How uneven the light was that was taken out, or null where it was left. */
  readonly light: LightReport | null;
  /** Laid side by side. */
  readonly x: Seam;
  /** Laid one above the other. */
  readonly y: Seam;
}

const whole = { from: { x: 0, y: 0 }, factor: { x: 1, y: 1 } };

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
  return withLimits(options, () => mendWithin(path, options));
}

async function mendWithin(
  path: string,
  options: MendPhotoOptions,
): Promise<Outcome<MendedPhoto, MeasureRefusal | 'too-few-repeats'>> {
  const { axis = 'both', output, keep = 60, calm = false } = options;
  if (!(keep > 0 && keep <= 100)) throw outOfRange('above 0 to 100 per cent', 'keep', keep);
  await checkOutput(output, { inputs: [path] });
  const opened = await openEven(path, options);
  if (!opened.ok) return opened;
  const { evened, photo, isAsRead, lattice, repeat, meets, copies } = opened.value;
  const joints = lattice && layJoints(lattice, whole);
  const mended = mendBest(evened.raster, { ...wishOf(options), repeat, joints, meets });
  if (!mended.ok) return { ...mended, message: `${showPath(path)}: ${mended.message}` };
  const { longer } = mended.value;
  const { tile, seams, calmed } = calmMended(mended.value, { joints, axis, calm });
  const { x, y } = seams;
  const few = keepAsked(findFew(seams, { raster: tile.raster, lattice }), axis);

  beginStep('writing', options);
  const result = { tile, isAsRead, light: evened.light, calmed };
  const copied = await writeTile(result, photo, output);
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
      why: whyJoined(tile.joins, longer, mended.value.seams),
      joins: reportJoins(tile.joins),
      healed: tile.healed,
      calmed,
      light: evened.light,
      ...reportTold({ x, y }, few),
    },
    warnings: [
      ...photo.warnings,
      ...opened.warnings,
      ...warnOfCopies(copies, photo),
      ...evened.warnings,
      ...sayWhatMeets(mended.warnings, few).map((one) => sayWhatWasDone(one, result, copied)),
      ...judgeSeams({ raster: tile.raster, seams: { x, y }, copies }, axis),
    ],
  };
}

interface Done {
  readonly light: LightReport | null;
  readonly calmed: CalmReport | null;
}

interface Made extends Done {
  readonly tile: Tile;
  readonly isAsRead: boolean;
}

// A picture that is nothing but what was read keeps its file, where that may be handed on.
async function writeTile(made: Made, photo: OpenedEven['photo'], output: string): Promise<boolean> {
  const inputs = [photo.path];
  const isSame = isUntouched(made, photo) && isNamedFor(output, photo.format);
  const bytes = isSame ? await readUnchanged(photo) : null;
  if (bytes === null) await writePicture(output, toRows(made.tile.raster), { inputs });
  else await copyPicture(output, bytes, { inputs });
  return bytes !== null;
}

function isUntouched(
  { tile, isAsRead, light, calmed }: Made,
  { width, height }: OpenedEven['photo'],
): boolean {
  if (!isAsRead || tile.method !== 'none') return false;
  const isWhole = tile.raster.width === width && tile.raster.height === height;
  const isCalmed = calmed !== null && calmed.swapped.length > 0;
  return isWhole && light?.lightest == null && !isCalmed;
}

function keepAsked({ x, y }: PerAxis<boolean>, axis: RepeatAxis): PerAxis<boolean> {
  return { x: x && axis !== 'y', y: y && axis !== 'x' };
}

function reportTold({ x, y }: PerAxis<Seam>, few: PerAxis<boolean>): PerAxis<Seam> {
  return { x: reportSeam(few.x ? unknownSeam : x), y: reportSeam(few.y ? unknownSeam : y) };
}

// Where nothing tells how a picture goes on, nobody can say that it meets itself.
function sayWhatMeets(warnings: readonly Warning[], few: PerAxis<boolean>): readonly Warning[] {
  if (!few.x && !few.y) return warnings;
  return [...warnings.filter(({ code }) => code !== 'already-seamless'), ...warnOfFew(few)];
}

// A picture whose ends meet may have had its light evened, or a stain taken out.
function sayWhatWasDone(warning: Warning, { light, calmed }: Done, copied: boolean): Warning {
  if (warning.code === 'too-small-to-tell' && copied)
    return { ...warning, message: `${warning.message}; the file is the same to the byte` };
  if (warning.code !== 'already-seamless') return warning;
  if (copied)
    return { ...warning, message: `${warning.message}: the file is the same to the byte` };
  const done = [
    ...(light?.lightest == null ? [] : ['its light was evened']),
    ...(calmed === null || calmed.swapped.length === 0 ? [] : ['it was calmed']),
  ];
  if (done.length === 0) return warning;
  const message = `the picture meets itself already: ${done.join(' and ')}, its ends were left as they are`;
  return { ...warning, message };
}

function wishOf({ axis, method, keep }: MendPhotoOptions): Partial<MendOptions> {
  return {
    ...(axis === undefined ? {} : { axis }),
    ...(method === undefined ? {} : { method }),
    ...(keep === undefined ? {} : { keep }),
  };
}

function count(
  tile: { readonly width: number; readonly height: number },
  lattice: Lattice | null,
): Pick<MendedPhoto, 'courses' | 'bricks'> {
  if (lattice === null) return { courses: null, bricks: null };
  const { axis, course, brick } = lattice;
  const [along, across] = axis === 'x' ? [tile.width, tile.height] : [tile.height, tile.width];
  return {
    courses: Math.round(along / course),
    bricks: brick === null ? null : Math.round((2 * across) / brick) / 2,
  };
}
