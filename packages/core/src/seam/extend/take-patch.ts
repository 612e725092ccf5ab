import type { Raster } from '../../raster/raster.js';
import type { Patch } from './canvas.js';
import { bedAt, type Beds } from './place-beds.js';
import type { PerpendLines } from './see-perpends.js';
import { type Mortar, type Courses, seeMortar } from '../mend/see-mortar.js';
import { placeBeds } from './place-beds.js';
import { seePerpends } from './see-perpends.js';
import { seeSound, type SoundCourses } from './see-sound.js';

/** A photo that patches are taken from. */
export interface PatchSource {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Square roots of light: red, green, blue. */
  readonly roots: readonly [Float32Array, Float32Array, Float32Array];
  /** Its courses, where it has any. */
  readonly courses: {
    /** What is mortar. */
    readonly mortar: Mortar;
    /** Bed joints. */
    readonly beds: Beds;
    /** Upright joints. */
    readonly perpends: PerpendLines;
    /** Where they are courses. */
    readonly sound: SoundCourses;
  } | null;
}

/** How large a patch is. */
export interface PatchSize {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** Which part of a photo: where it begins, and how its rows follow. */
export interface PatchOrigin {
  /** Which photo. */
  readonly source: number;
  /** Its first column, whole. */
  readonly x: number;
  /** Its first row, seldom whole where it follows courses. */
  readonly y: number;
  /** Photo rows to a row of the patch; 1 where it follows no courses. */
  readonly step: number;
  /** Which course it follows, where it does. */
  readonly course?: number;
}

/**
 * Open a photo for taking patches from.
 *
 * @param raster - In linear light.
 * @param courses - Where its courses lie, or null.
 * @returns What patches are taken from.
 */
export function openSource(raster: Raster, courses: Courses | null): PatchSource {
  const { width, height, planes } = raster;
  const rootsOf = (plane: Float32Array): Float32Array =>
    plane.map((light) => (light > 0 ? Math.sqrt(light) : 0));
  const [red, green, blue] = planes;
  const roots = [rootsOf(red), rootsOf(green), rootsOf(blue)] as const;
  if (courses === null) return { width, height, roots, courses: null };
  const mortar = seeMortar(raster, courses);
  const beds = placeBeds(mortar, courses);
  const perpends = seePerpends(mortar, beds);
  return {
    width,
    height,
    roots,
    courses: { mortar, beds, perpends, sound: seeSound(raster, mortar, beds) },
  };
}

/** A patch over one course. */
export interface CourseRun {
  /** Which course. */
  readonly course: number;
  /** First column. */
  readonly x: number;
  /** Columns. */
  readonly width: number;
  /** Rows of the patch to the course, seldom whole. */
  readonly rows: number;
  /** Rows of the patch above the course's bed. */
  readonly before: number;
}

/**
 * Say where in a photo a patch over one course begins.
 *
 * @param beds - Of the photo.
 * @param at - Which course, and how the patch lies over it.
 * @returns First row, and rows of the photo to one of the patch.
 */
export function followCourse(beds: Beds, at: CourseRun): Pick<PatchOrigin, 'y' | 'step'> {
  const middle = at.x + at.width / 2;
  const top = bedAt(beds, at.course, middle);
  const step = (bedAt(beds, at.course + 1, middle) - top) / at.rows;
  return { y: top - at.before * step, step };
}

/**
 * Take a patch.
 *
 * @param source - The photo.
 * @param origin - Where it begins.
 * @param size - Columns and rows.
 * @returns A copy. Past the photo's edge the edge is held.
 */
export function takePatch(source: PatchSource, origin: PatchOrigin, size: PatchSize): Patch {
  const { width, height } = size;
  const take = (plane: Float32Array): Float32Array => {
    const out = new Float32Array(width * height);
    for (let y = 0; y < height; y++) {
      addRow(out.subarray(y * width, (y + 1) * width), plane, {
        width: source.width,
        height: source.height,
        x: origin.x,
        y: origin.step === 1 ? origin.y + y : origin.y + (y + 0.5) * origin.step - 0.5,
      });
    }
    return out;
  };
  const { courses } = source;
  const [red, green, blue] = source.roots;
  return {
    width,
    height,
    planes: [take(red), take(green), take(blue)],
    likeness: courses === null ? new Float32Array(width * height) : take(courses.mortar.likeness),
  };
}

interface RowOf {
  readonly width: number;
  readonly height: number;
  readonly x: number;
  readonly y: number;
}

// Four rows of the photo, by Catmull and Rom's curve through them.
function addRow(out: Float32Array, plane: Float32Array, { width, height, x, y }: RowOf): void {
  const whole = Math.floor(y);
  const t = y - whole;
  const weights = [
    ((2 - t) * t - 1) * t * 0.5,
    ((3 * t - 5) * t * t + 2) * 0.5,
    ((4 - 3 * t) * t + 1) * t * 0.5,
    (t - 1) * t * t * 0.5,
  ];
  for (const [tap, weight] of weights.entries()) {
    if (weight === 0) continue;
    const row = Math.min(height - 1, Math.max(0, whole + tap - 1)) * width;
    for (let i = 0; i < out.length; i++) {
      out[i]! += weight * plane[row + Math.min(width - 1, Math.max(0, x + i))]!;
    }
  }
}
