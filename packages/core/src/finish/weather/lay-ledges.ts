import type { Ledge, WallPoint, WeatherRow, WeatherSite } from './site.js';

// Water gathers and drips at the ends of a sill, so far in from them.
const endMm = 90;
// Points so near, mm, are one.
const near = 0.01;

interface LaidLedge {
  readonly first: number;
  readonly last: number;
  /** Where it lies at each place from the first to the last, mm down. */
  readonly heights: Float32Array;
  readonly ends: Float32Array;
  readonly top: number;
}

/** Finds what ledge each place of a row lies under and over, and how near the nearest of them are. */
export type FindLedges = (
  y: number,
  out: Pick<WeatherRow, 'fall' | 'rise' | 'end'>,
) => Pick<WeatherRow, 'leastFall' | 'leastRise'>;

/**
 * Ready the ledges of a site.
 *
 * @param site - With its ledges.
 * @returns What says of a row how far it lies below and above them.
 */
export function layLedges(site: WeatherSite): FindLedges {
  const ledges = leaveOutTwins(site.ledges);
  const meets = findMeetings(ledges);
  const laid = ledges.flatMap((ledge) => lay(ledge, site, meets)).sort((a, b) => a.top - b.top);
  return (y, { fall, rise, end }) => {
    fall.fill(Infinity);
    rise.fill(Infinity);
    end.fill(0);
    let leastFall = Infinity;
    let leastRise = Infinity;
    for (const { first, last, heights, ends } of laid) {
      for (let i = first, k = 0; i <= last; i++, k++) {
        const below = y - heights[k]!;
        if (below < 0) {
          if (-below < rise[i]!) rise[i] = -below;
          if (-below < leastRise) leastRise = -below;
        } else if (below < fall[i]!) {
          fall[i] = below;
          end[i] = ends[k]!;
          if (below < leastFall) leastFall = below;
        }
      }
    }
    return { leastFall, leastRise };
  };
}

// A window's underside lies on the sill of the hole behind it: one ledge told twice has ends all the same.
function leaveOutTwins(ledges: readonly Ledge[]): readonly Ledge[] {
  // By where their middles lie, so that each is held against few.
  const kept = new Map<number, Ledge[]>();
  return ledges.filter((ledge) => {
    const cell = Math.round((ledge.from.x + ledge.to.x) / 2 / near);
    const isTwin = [cell - 1, cell, cell + 1].some((one) =>
      kept.get(one)?.some((other) => isSame(ledge, other)),
    );
    if (isTwin) return false;
    const beside = kept.get(cell);
    if (beside === undefined) kept.set(cell, [ledge]);
    else beside.push(ledge);
    return true;
  });
}

function isSame({ from, to }: Ledge, other: Ledge): boolean {
  return (
    (isNear(from, other.from) && isNear(to, other.to)) ||
    (isNear(from, other.to) && isNear(to, other.from))
  );
}

function isNear(one: WallPoint, other: WallPoint): boolean {
  return Math.abs(one.x - other.x) <= near && Math.abs(one.y - other.y) <= near;
}

type Meets = (point: WallPoint) => boolean;

// Where one stretch of a bent ledge goes on into the next, water does not drip as it does at an end.
function findMeetings(ledges: readonly Ledge[]): Meets {
  const once = new Set<string>();
  const more = new Set<string>();
  const keyOf = ({ x, y }: WallPoint): string => `${x},${y}`;
  for (const key of ledges.flatMap(({ from, to }) => [keyOf(from), keyOf(to)])) {
    (once.has(key) ? more : once).add(key);
  }
  return (point) => more.has(keyOf(point));
}

function lay({ from, to }: Ledge, { run }: WeatherSite, meets: Meets): LaidLedge[] {
  const [left, right] = from.x <= to.x ? [from, to] : [to, from];
  const placeOf = (x: number): number => (x - run.start) / run.step - run.first;
  const first = Math.max(0, Math.ceil(placeOf(left.x)));
  const last = Math.min(run.count - 1, Math.floor(placeOf(right.x)));
  if (!(last >= first)) return [];
  const slope = left.y === right.y ? 0 : (right.y - left.y) / (right.x - left.x);
  const leftEnd = meets(left) ? -Infinity : left.x;
  const rightEnd = meets(right) ? Infinity : right.x;
  const heights = new Float32Array(last - first + 1);
  const ends = new Float32Array(last - first + 1);
  for (let k = 0; k < heights.length; k++) {
    const x = (run.first + first + k) * run.step + run.start;
    heights[k] = slope === 0 ? left.y : left.y + (x - left.x) * slope;
    ends[k] = Math.max(0, 1 - Math.min(x - leftEnd, rightEnd - x) / endMm);
  }
  return [{ first, last, heights, ends, top: Math.min(left.y, right.y) }];
}
