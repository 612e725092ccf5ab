import { median } from '../../numeric/median.js';
import type { Direction } from './see-directions.js';

/** Lines through one point, near or far: the slope at `(u, v)` is `(a - b v) / (1 - b u)`. */
export interface Pencil {
  /** Slope at the middle of the picture. */
  readonly a: number;
  /** How fast the lines come together; 0 where they are parallel. */
  readonly b: number;
  /** Sum of the weights that bear it out. */
  readonly weight: number;
  /** Share of all weight. */
  readonly share: number;
}

/** A direction where lines lie along `u`, in units of half the picture's diagonal from its middle. */
export interface PencilPoint extends Pick<Direction, 'slope' | 'weight'> {
  /** Along the lines. */
  readonly u: number;
  /** Across them. */
  readonly v: number;
}

/** Deviation of a direction that is right. */
const close = 0.015;
/** Deviation of `b` over all photographs: a ridge where the directions hardly tell. */
const usual = 0.15;

/**
 * Find the point that most directions lead to. Each votes for the slopes near its own; those that
 * agree with the strongest slope are then fitted, what stands off losing its say.
 *
 * @param points - Any number.
 * @returns The pencil, or null of none.
 */
export function fitPencil(points: readonly PencilPoint[]): Pencil | null {
  const strength = points.map(({ weight }) => strengthOf(weight));
  const all = strength.reduce((sum, w) => sum + w, 0);
  if (!(all > 0)) return null;
  let { a, b } = { a: findMode(points, strength), b: 0 };
  let weight = 0;
  for (let round = 0; round < 12; round++) {
    const misfits = points.map(({ u, v, slope }) => slope - (a - b * v) / (1 - b * u));
    const near = misfits.map(Math.abs).filter((off, i) => strength[i]! > 0 && off < 6 * close);
    // From wide to narrow, so that lines that come together are not left out at the start.
    const width = Math.max(4 * median(Float64Array.from(near)), close, 0.09 / (round + 1));
    let [s, sx, sxx, sy, sxy] = [0, 0, 0, 0, 0];
    for (const [i, { u, v, slope }] of points.entries()) {
      const off = misfits[i]! / width;
      const w = Math.abs(off) < 1 ? strength[i]! * (1 - off * off) ** 2 : 0;
      const x = slope * u - v;
      s += w;
      sx += w * x;
      sxx += w * x * x;
      sy += w * slope;
      sxy += w * x * slope;
    }
    if (!(s > 0)) break;
    const ridge = (4 * close * close) / (usual * usual);
    b = (sxy - (sx * sy) / s) / (sxx - (sx * sx) / s + ridge);
    a = (sy - b * sx) / s;
    weight = s;
  }
  return { a, b, weight, share: weight / all };
}

/**
 * Say how much a direction counts.
 *
 * @param weight - How far it stands out; twice what other directions have may be chance.
 * @returns 0 to 12.
 */
export function strengthOf(weight: number): number {
  return Math.min(12, 3 * Math.max(0, weight - 1.9));
}

function findMode(points: readonly PencilPoint[], strength: readonly number[]): number {
  let best = 0;
  let most = -1;
  for (const { slope } of points) {
    let votes = 0;
    for (const [i, other] of points.entries()) {
      votes += strength[i]! * Math.exp(-(((other.slope - slope) / 0.04) ** 2));
    }
    if (votes > most) [best, most] = [slope, votes];
  }
  return best;
}
