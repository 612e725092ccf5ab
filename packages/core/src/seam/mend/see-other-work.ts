import { bedAt } from '../extend/place-beds.js';
import { seeSound } from '../extend/see-sound.js';
import type { Joints } from './see-joints.js';
import { onlySolid } from './only-solid.js';
import type { SeenWall } from './see-wall.js';

// Pixels a course that show as much of it as more would: two for one of 23.25, bricks for OO at 600 dpi, and half of
// their rows.
const enough = 11.5;

/** Whether a pixel of a picture shows other work than the courses about it: a window, a pipe, growth. */
export type OtherWork = (x: number, y: number) => boolean;

/**
 * See what in a picture of courses is none of them.
 *
 * @param look - At the picture, in whole times fewer pixels.
 * @param joints - Where its courses lie.
 * @returns What tells for every pixel; nothing is said of those above the first bed joint or below the last.
 */
export function seeOtherWork(look: (times: number) => SeenWall, joints: Joints): OtherWork {
  const times = Math.max(1, Math.floor(joints.course / enough));
  const { raster: level, courses, mortar, beds } = look(times);
  const sound = seeSound(level, mortar, beds);
  // Boards, blocks and slates show too little of their joints to be sure of less.
  const unsound = joints.brick === null ? onlySolid(sound.unsound, courses.course) : sound.unsound;
  const shows = (x: number, y: number): boolean => {
    const line = unsound[courseAt(x, y)];
    return line !== undefined && x < line.length && line[x]! > (line[x - 1] ?? 0);
  };
  const courseAt = (x: number, y: number): number => {
    const guess = Math.floor((y + 0.5 - courses.offset) / courses.course) - beds.first;
    for (const course of [guess, guess - 1, guess + 1]) {
      if (course < 0 || course + 1 >= beds.count) continue;
      if (bedAt(beds, course, x) <= y + 0.5 && y + 0.5 < bedAt(beds, course + 1, x)) return course;
    }
    return -1;
  };
  const at = (x: number, y: number): boolean => shows(Math.floor(x / times), Math.floor(y / times));
  return joints.axis === 'x' ? (x, y) => at(y, x) : at;
}
