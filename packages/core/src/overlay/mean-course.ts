import type { FoundJoints } from '../surface/found-joints.js';

/**
 * Find how high a course is by the joints that were found.
 *
 * @param joints - As found.
 * @returns Pixels of the level picture, or `Infinity` where there are not two joints.
 */
export function meanCourse(joints: FoundJoints): number {
  const { beds } = joints;
  const [first, last] = [beds[0], beds.at(-1)];
  if (first === undefined || last === undefined || beds.length < 2) return Infinity;
  return (last.at - first.at) / (beds.length - 1);
}
