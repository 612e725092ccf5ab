import type { JudgedJoin } from '../seam/choose-join.js';
import type { PerAxis } from '../surface/measurement.js';

type Joins = PerAxis<readonly JudgedJoin[] | null>;

// Of a join that shows nothing, nobody can say how many times as much another shows.
const leastScore = 0.05;

/**
 * Say in words why the ends of a picture were joined as they were.
 *
 * @param joins - What was tried along each axis, the one that was taken first.
 * @returns `side by side a cut would show 1.3 times as much`, or null where there was no choice.
 */
export function whyJoined(joins: Joins): string | null {
  const { x, y } = joins;
  const told = [inWords('side by side', x), inWords('one above the other', y)].filter(
    (one) => one !== null,
  );
  return told.length > 0 ? told.join('; ') : null;
}

function inWords(way: string, tried: readonly JudgedJoin[] | null): string | null {
  const [taken, ...others] = tried ?? [];
  if (taken === undefined || others.length === 0) return null;
  const least = Math.max(leastScore, taken.score);
  const rest = others.map(({ method, score }) => {
    const times = Math.max(leastScore, score) / least;
    return `a ${method} would show ${times < 1.05 ? 'as much' : `${times.toFixed(1)} times as much`}`;
  });
  return `${way} ${rest.join(', ')}`;
}
