import type { FoundJoints } from '../../surface/found-joints.js';

/** Where joints of one picture begin, or stop, to show. */
export interface FaintPart {
  /** The last joint before that, counted from 0. */
  readonly at: number;
  /** Whether those up to it are the faint ones. */
  readonly isFirst: boolean;
}

/** Joints that a part has at least. */
const least = { faint: 2, clear: 4 };
/** Share of their length over which the clear joints show more than the faint ones, at least. */
const leastFainter = 0.15;

/**
 * Find where joints in a row are faint from one of them on: as where courses of one half or twice the
 * height go on, so that every second joint is none, or there is another between any two.
 *
 * @param beds - Joints and how well each shows, in a row.
 * @returns The two parts that differ most, or null where they all show alike.
 */
export function findFaint(beds: FoundJoints['beds']): FaintPart | null {
  const sums = [0];
  for (const { shows } of beds) sums.push(sums[sums.length - 1]! + shows);
  const mean = (from: number, to: number): number =>
    ((sums[to] ?? NaN) - (sums[from] ?? NaN)) / (to - from);
  let best: FaintPart | null = null;
  let most = 0;
  for (let count = least.faint; count <= beds.length - least.faint; count++) {
    const fainter = mean(count, beds.length) - mean(0, count);
    const clear = fainter > 0 ? beds.length - count : count;
    if (clear < least.clear || Math.abs(fainter) < leastFainter) continue;
    // What the two parts leave of all variance is least where this is most.
    const explained = fainter * fainter * count * (beds.length - count);
    if (explained <= most) continue;
    most = explained;
    best = { at: count - 1, isFirst: fainter > 0 };
  }
  return best;
}
