import type { JudgedJoin } from '../../seam/mend/choose-join.js';
import type { Seam } from '../../seam/inspect/inspected-seam.js';
import type { LongerTile } from '../../seam/mend/mend-best.js';
import type { PerAxis } from '../../surface/measurement.js';

type Joins = PerAxis<readonly JudgedJoin[] | null>;

// Of a join that shows nothing, nobody can say how many times as much another shows.
const leastScore = 0.05;

const ways = { x: 'side by side', y: 'one above the other' } as const;

/**
 * Say in words why the ends of a picture were joined as they were.
 *
 * @param joins - What was tried along each axis, the one that was taken first.
 * @param longer - What of the picture was given away to join them in.
 * @param seams - What shows where they were joined.
 * @returns `side by side a cut would show 1.3 times as much`, or null where there was no choice.
 */
export function whyJoined(
  joins: Joins,
  longer: PerAxis<LongerTile | null>,
  seams: PerAxis<Seam>,
): string | null {
  const told = (['x', 'y'] as const).flatMap((axis) => [
    inWords(ways[axis], joins[axis]),
    lessInWords(ways[axis], longer[axis], seams[axis]),
  ]);
  const said = told.filter((one) => one !== null);
  return said.length > 0 ? said.join('; ') : null;
}

function lessInWords(way: string, longer: LongerTile | null, taken: Seam): string | null {
  if (longer === null) return null;
  const { length, seamScore } = longer;
  const score = seamScore.toFixed(1);
  const what = taken.seamless
    ? `a seam (score ${score})`
    : `more of a seam (score ${score} against ${taken.seamScore.toFixed(1)})`;
  return `${way} a tile of ${length} px would show ${what}`;
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
