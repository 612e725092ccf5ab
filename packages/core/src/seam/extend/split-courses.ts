import type { Raster } from '../../raster/raster.js';
import { quantile } from '../inspect/quantile.js';
import type { Cell } from './cell.js';
import { mortarAround } from './mortar-around.js';
import { bedAt, centreOf } from './place-beds.js';
import { isSound } from './see-sound.js';
import type { PatchSource } from './take-patch.js';

/** A brick, or a run of them, between two perpends that show. */
export interface Piece extends Cell {
  /** Which photo it is of. */
  readonly source: number;
  /** Its course, from 0. */
  readonly course: number;
  /** Colour of its mortar and its face, as {@link mortarAround} tells. */
  readonly mortar: Float64Array;
}

/** What a photo without a known bond comes apart into. */
export interface SplitPhoto {
  /** From left to right, course by course. */
  readonly pieces: readonly Piece[];
  /** Share that they cover of what courses show of whole bricks; about 1 where all joints show. */
  readonly covered: number;
  /** Share of perpends that stand upon one another. */
  readonly upright: number;
}

// Perpends nearer to one another than this share of a course are one.
const apart = 0.5;
// One that shows less than this share of a good one is none; and the least of a good one.
const leastShare = 0.5;
const leastGood = 0.22;
// Lengths of a piece, in courses.
const shortest = 0.75;
const longest = 7;
// How far past the photo's edge the middle of a joint may lie, in joints.
const inJoint = 0.15;
// Bricks cut by the ends of a course, together as long as so many whole ones.
const cutEnds = 1.1;

/**
 * Take courses apart where upright joints show.
 *
 * @param number - Which photo it is.
 * @param photo - In linear light.
 * @param source - What is known of it.
 * @returns Pieces; none where joints do not show.
 */
export function splitCourses(number: number, photo: Raster, source: PatchSource): SplitPhoto {
  const { courses } = source;
  if (courses === null) return { pieces: [], covered: 0, upright: 0 };
  const { beds, perpends, mortar, sound } = courses;
  const high = (bedAt(beds, beds.count - 1, 0) - bedAt(beds, 0, 0)) / Math.max(1, beds.count - 1);
  const peaks = perpends.courses.map((line) => findPeaks(line, Math.max(2, apart * high)));
  const values = peaks.flatMap((places, i) => places.map((x) => perpends.courses[i]![x]!));
  const good = quantile(Float64Array.from(values), 0.75);
  if (good < leastGood) return { pieces: [], covered: 0, upright: 0 };
  const joints = perpends.courses.map((line, i) =>
    peaks[i]!.filter((x) => line[x]! >= leastShare * good).map((x) =>
      centreOf(line, x + 0.5, mortar.joint),
    ),
  );
  const pieces: Piece[] = [];
  let covered = 0;
  const margin = inJoint * mortar.joint;
  for (const [course, places] of joints.entries()) {
    for (let i = 1; i < places.length; i++) {
      const [left, right] = [places[i - 1]!, places[i]!];
      const middle = (left + right) / 2;
      const [top, bottom] = [bedAt(beds, course, middle), bedAt(beds, course + 1, middle)];
      const cell = { left, right, top, bottom };
      const length = (right - left) / high;
      if (length < shortest || length > longest || !isSound(sound, course, cell)) continue;
      if (top < -margin || bottom > photo.height + margin) continue;
      covered += right - left;
      pieces.push({
        ...cell,
        source: number,
        course,
        mortar: mortarAround(photo, cell, mortar.joint),
      });
    }
  }
  const mean = covered / Math.max(1, pieces.length);
  const whole = sound.unsound.map((line) => photo.width - (line[photo.width - 1] ?? 0));
  const could = whole.reduce((sum, length) => sum + Math.max(0, length - cutEnds * mean), 1e-9);
  return {
    pieces,
    covered: covered / could,
    upright: uprightShare(joints, 0.2 * high),
  };
}

// Places of the largest value within reach.
function findPeaks(line: Float64Array, reach: number): number[] {
  const peaks: number[] = [];
  for (let x = 0; x < line.length; x++) {
    const here = line[x]!;
    if (here <= 0) continue;
    let most = true;
    const last = Math.min(line.length - 1, Math.ceil(x + reach));
    for (let i = Math.max(0, Math.floor(x - reach)); i <= last && most; i++) {
      // Of two alike the first.
      if (line[i]! > here || (line[i] === here && i < x)) most = false;
    }
    if (most) peaks.push(x);
  }
  return peaks;
}

function uprightShare(joints: readonly (readonly number[])[], within: number): number {
  let [met, count] = [0, 1e-9];
  for (let course = 1; course < joints.length; course++) {
    const above = joints[course - 1]!;
    for (const x of joints[course]!) {
      count++;
      if (above.some((other) => Math.abs(other - x) < within)) met++;
    }
  }
  return met / count;
}
