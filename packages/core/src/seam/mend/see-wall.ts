import type { Raster } from '../../raster/raster.js';
import { shrinkRaster } from '../../raster/shrink-raster.js';
import { transposeRaster } from '../../raster/transpose-raster.js';
import { type Beds, placeBeds } from '../extend/place-beds.js';
import { type Courses, type Mortar, seeMortar } from './see-mortar.js';
import type { Joints } from './see-joints.js';

/** What is seen of a wall with level courses. */
export interface SeenWall {
  /** The wall, its courses level, in linear light. */
  readonly raster: Raster;
  /** Where its courses lie, in pixels of that. */
  readonly courses: Courses;
  /** What in it is mortar. */
  readonly mortar: Mortar;
  /** Where its bed joints lie. */
  readonly beds: Beds;
}

/**
 * Look at a wall, laid so that its courses are level.
 *
 * @param picture - In linear light.
 * @param joints - Where its courses lie.
 * @returns What looks at it in so many times fewer pixels, a whole number; once, and then knows.
 */
export function createLook(picture: Raster, joints: Joints): (times: number) => SeenWall {
  const seen = new Map<number, SeenWall>();
  return (times) => {
    const known = seen.get(times);
    if (known !== undefined) return known;
    const small = shrinkRaster(picture, times);
    const raster = joints.axis === 'x' ? transposeRaster(small) : small;
    const courses = { course: joints.course / times, offset: joints.offset / times };
    const mortar = seeMortar(raster, courses);
    const wall = { raster, courses, mortar, beds: placeBeds(mortar, courses) };
    seen.set(times, wall);
    return wall;
  };
}
