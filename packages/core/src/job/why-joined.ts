import type { JudgedJoin } from '../seam/choose-join.js';
import type { PerAxis } from '../surface/measurement.js';

type Joins = PerAxis<readonly JudgedJoin[] | null>;

/**
 * Say in words why the ends of a picture were joined as they were.
 *
 * @param joins - What was tried along each axis, the one that was taken first.
 * @returns `side by side a gradient meets at 0.71, a cut at 0.93`, or null where there was no choice.
 */
export function whyJoined(joins: Joins): string | null {
  const { x, y } = joins;
  const told = [inWords('side by side', x), inWords('one above the other', y)].filter(
    (one) => one !== null,
  );
  return told.length > 0 ? `${told.join('; ')} (1 is as steps inside)` : null;
}

function inWords(way: string, tried: readonly JudgedJoin[] | null): string | null {
  const [taken, ...others] = tried ?? [];
  if (taken === undefined || others.length === 0) return null;
  const rest = others.map(({ method, score }) => `a ${method} at ${score.toFixed(2)}`);
  return `${way} a ${taken.method} meets at ${taken.score.toFixed(2)}, ${rest.join(', ')}`;
}
