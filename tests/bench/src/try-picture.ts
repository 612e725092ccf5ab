import { performance } from 'node:perf_hooks';
import {
  type CourseReference,
  judgeFormats,
  type Measurement,
  measureCourses,
  type Raster,
} from '@gaugerod/core';
import { toShape } from '../../../packages/core/dist/measure/given/to-shape.js';
import type { LocalChange } from '@gaugerod/fixtures';
import { areaOf, moveBetween, type Rectification } from './move-between.js';

/** What a picture is known to show. */
export interface PictureTruth {
  /** Bed joint to bed joint in pixels of the level picture, or null where there are no courses. */
  readonly coursePx: number | null;
  /** The same in real millimetres. */
  readonly courseMm: number;
  /** One brick with its joint, or null where not known. */
  readonly brickPx: number | null;
  /** Which way courses are counted. */
  readonly axis: 'x' | 'y';
  /** The bond's catalogue id, or null where there is none. */
  readonly bond: string | null;
  /** The bricks' catalogue id, or null where they are of none. */
  readonly format: string | null;
  /** How the photo is made level. */
  readonly rectification: Rectification;
}

/** What a picture was, and what was made of it. Errors are fractions. */
export interface Trial {
  readonly index: number;
  readonly name: string;
  readonly truth: PictureTruth;
  /** Milliseconds that the measurement took. */
  readonly ms: number;
  /** Null where the picture was refused. */
  readonly found: FoundAnswer | null;
}

/** A measurement held against the truth, at the middle of the photo unless said otherwise. */
export interface FoundAnswer {
  readonly confidence: number;
  /** Expanded uncertainty (k = 2) without the reference's own, which drawn work does not have. */
  readonly uncertainty: number;
  /** Real length square to the courses as measured, over the true one, less 1. */
  readonly across: number;
  /** The same along the courses. */
  readonly along: number;
  /** Root of the same over an area. */
  readonly area: number;
  /** Largest scale over the smallest, less 1, in the corners and the middle of the level picture. */
  readonly spread: number;
  /** Degrees by which the courses still fall to the right. */
  readonly turn: number;
  readonly bond: string | null;
  /** Length of a brick over the true one, less 1, or null. */
  readonly brick: number | null;
  /** Catalogue ids of the likeliest formats, more than one where they tie; without any hint. */
  readonly formats: readonly string[];
  /** The course as found, for the list of failures. */
  readonly coursePx: number;
}

function judge(measured: Measurement, truth: PictureTruth, size: Raster): FoundAnswer {
  const moveAt = (x: number, y: number): LocalChange =>
    moveBetween({ found: measured.rectification, truth: truth.rectification, size }, { x, y });
  const middle = moveAt(0.5, 0.5);
  const { mmPerPx, lattice, budget, confidence } = measured;
  const bed = truth.axis === 'y' ? middle.right : middle.down;
  const bedLength = Math.hypot(bed.x, bed.y);
  const trueMm = truth.courseMm / (truth.coursePx ?? NaN);
  const along = (bedLength * mmPerPx[truth.axis === 'y' ? 'x' : 'y']) / trueMm - 1;
  const across = ((areaOf(middle) / bedLength) * mmPerPx[truth.axis]) / trueMm - 1;
  const corners = [0, 1].flatMap((x) => [0, 1].map((y) => Math.sqrt(areaOf(moveAt(x, y)))));
  const scales = [...corners, Math.sqrt(areaOf(middle))];
  const [u, v] = truth.axis === 'y' ? [bed.x, bed.y] : [bed.y, -bed.x];
  const parts = budget.filter(({ source }) => source !== 'reference');
  const standard = 0.01 * Math.hypot(...parts.map(({ percent }) => percent));
  return {
    confidence,
    uncertainty: 2 * standard,
    across,
    along,
    area: Math.sqrt((1 + across) * (1 + along)) - 1,
    spread: Math.max(...scales) / Math.min(...scales) - 1,
    turn: (Math.atan2(v, u) * 180) / Math.PI,
    ...judgeLattice(lattice, truth.brickPx === null ? null : truth.brickPx * bedLength, standard),
  };
}

function judgeLattice(
  lattice: Measurement['lattice'],
  brickPx: number | null,
  uncertainty: number,
): Pick<FoundAnswer, 'bond' | 'brick' | 'coursePx' | 'formats'> {
  if (lattice === null) return { bond: null, brick: null, coursePx: NaN, formats: [] };
  const { bond, brick, course } = lattice;
  return {
    bond,
    brick: brick === null || brickPx === null ? null : brick / brickPx - 1,
    coursePx: course,
    formats: nameFormats(lattice, uncertainty),
  };
}

// That headers were seen was told by the reference: stretchers of short bricks look the same.
function nameFormats(
  lattice: NonNullable<Measurement['lattice']>,
  uncertainty: number,
): readonly string[] {
  const bond = lattice.bond === 'header' ? 'stretcher' : lattice.bond;
  const shape = toShape({ ...lattice, bond }, uncertainty);
  if (shape === null) return [];
  const { formats, tied } = judgeFormats(shape);
  if (tied.length > 0) return tied;
  return formats.slice(0, 1).map(({ reference }) => reference.id);
}

/**
 * Measure one picture and hold the answer against the truth.
 *
 * @param name - What it is called in a list.
 * @param index - Its number in its sample.
 * @param picture - The picture and what it shows.
 * @param picture.raster - In linear light.
 * @param picture.truth - What it shows.
 * @param reference - How high its course really is.
 * @returns The answer, judged.
 */
export function tryPicture(
  name: string,
  index: number,
  picture: { readonly raster: Raster; readonly truth: PictureTruth },
  reference: CourseReference,
): Trial {
  const { raster, truth } = picture;
  const start = performance.now();
  const outcome = measureCourses(raster, reference, { axis: truth.axis });
  const ms = performance.now() - start;
  const found = outcome.ok ? judge(outcome.value, truth, raster) : null;
  return { index, name, truth, ms, found };
}

/**
 * Tell whether an answer is right: its scale within 1 % of the truth.
 *
 * @param trial - What was made of a picture.
 * @returns False where it was refused, too.
 */
export function isRight(trial: Trial): boolean {
  const { found, truth } = trial;
  return found !== null && truth.coursePx !== null && Math.abs(found.across) <= 0.01;
}

/**
 * Tell whether a course was taken for two, three, a half or a third.
 *
 * @param trial - What was made of a picture.
 * @returns Whether it was.
 */
export function isOctave(trial: Trial): boolean {
  const { found, truth } = trial;
  if (found === null || truth.coursePx === null) return false;
  const ratio = 1 + found.across;
  const times = Math.max(ratio, 1 / ratio);
  return times > 1.5 && Math.abs(times / Math.round(times) - 1) < 0.1;
}
