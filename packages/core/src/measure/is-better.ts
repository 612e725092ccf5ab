import { dividesWell } from './joints/divides-well.js';
import { confidenceOf, type SeenWall } from './seen-wall.js';

/**
 * Tell which of two looks at a wall to believe: that with the course of which the other has two or
 * more, however sure that is of itself; of others, the surer.
 *
 * @param one - As seen.
 * @param other - As seen otherwise, or null where nothing was.
 * @returns Whether it is the first.
 */
export function isBetter(one: SeenWall, other: SeenWall | null): boolean {
  if (other === null) return confidenceOf(one) > 0;
  if (dividesWell(weighed(one), weighed(other))) return true;
  return !dividesWell(weighed(other), weighed(one)) && confidenceOf(one) > confidenceOf(other);
}

// Of looks at parts made smaller by different steps, too.
const weighed = ({ track, step }: SeenWall): Parameters<typeof dividesWell>[0] => ({
  placed: { course: track.placed.course * step },
  weight: track.weight,
});
