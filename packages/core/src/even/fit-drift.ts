import { fitRobust } from '../numeric/fit-robust.js';
import { median } from '../numeric/median.js';
import type { PerAxis } from '../surface/measurement.js';
import type { CellLight } from './cell-light.js';

/** A power of x times a power of y, both -1 to 1 over the picture, and how much of it. */
export interface DriftTerm {
  /** Of x. */
  readonly x: number;
  /** Of y. */
  readonly y: number;
  /** In logarithms of light. */
  readonly amount: number;
}

/** Drift of one channel: the terms, and what it leaves of the cells. */
export interface Drift {
  /** None where the light is even. */
  readonly terms: readonly DriftTerm[];
  /** Of each cell, what the drift does not explain, in logarithms. */
  readonly rest: Float64Array;
}

/**
 * A term smaller than so many of its own deviations may be chance, and shrinks: by its order. Light
 * falls off in slopes and bows; bends are rather a few bricks of another firing.
 */
const doubts = [0, 1, 1.6, 2.5] as const;

/**
 * Fit the slow change of light over a picture: slopes, bows and, where there are cells enough, one
 * bend more. Cells that stand off, in a shadow or behind a pipe, lose their say; what may be chance
 * is left in the picture.
 *
 * @param cells - As {@link cellLight} takes them.
 * @param logs - Those of red, of green or of blue.
 * @param along - Along which axes light may drift; not along one on which the picture meets itself.
 * @returns Its terms, and what they leave of the cells.
 * @see W. James and C. Stein, Estimation with quadratic loss, Berkeley Symposium 4 (1961)
 */
export function fitDrift(cells: CellLight, logs: Float64Array, along: PerAxis<boolean>): Drift {
  const powers = listPowers(cells.count, along);
  const size = logs.length;
  const curves = new Float64Array(size * (powers.length + 1));
  for (let cell = 0; cell < size; cell++) {
    const row = cell * (powers.length + 1);
    curves[row] = 1;
    for (const [i, [x, y]] of powers.entries()) {
      curves[row + 1 + i] = legendre(x, cells.x[cell]!) * legendre(y, cells.y[cell]!);
    }
  }
  const fit = fitRobust(curves, logs);
  const rest = logs.map((log, cell) => {
    let sum = log;
    for (let i = 0; i < fit.length; i++) sum -= fit[i]! * curves[cell * fit.length + i]!;
    return sum;
  });
  const free = Math.max(1, size - fit.length);
  const spread = 1.4826 * median(rest.map(Math.abs)) * Math.sqrt(size / free);
  const terms = powers.map(([x, y], i): DriftTerm => {
    const amount = fit[i + 1]!;
    let square = 0;
    for (let cell = 0; cell < size; cell++) square += curves[cell * fit.length + i + 1]! ** 2;
    const chance = (doubts[x + y]! * spread) / Math.sqrt(square);
    const share = Math.max(0, 1 - (chance / amount) ** 2);
    return { x, y, amount: amount === 0 ? 0 : share * amount };
  });
  return { terms: terms.filter(({ amount }) => amount !== 0), rest };
}

type Power = readonly [x: number, y: number];

function listPowers(count: PerAxis<number>, along: PerAxis<boolean>): readonly Power[] {
  const x = along.x ? count.x : 1;
  const y = along.y ? count.y : 1;
  const most = (cells: number): number => (cells >= 7 ? 3 : cells >= 4 ? 2 : cells >= 2 ? 1 : 0);
  const powers: Power[] = [];
  for (let order = 1; order <= 3; order++) {
    for (let i = 0; i <= order; i++) {
      const j = order - i;
      if (i > most(x) || j > most(y)) continue;
      // A bend across another wants cells enough both ways.
      if (i > 0 && j > 0 && Math.min(x, y) < (order === 2 ? 4 : 7)) continue;
      powers.push([i, j]);
    }
  }
  // As many curves as cells would draw the cells themselves.
  return powers.slice(0, Math.max(0, Math.floor((count.x * count.y) / 2) - 1));
}

/**
 * The polynomials that do not speak for one another.
 *
 * @param order - 0 to 3.
 * @param t - -1 to 1.
 * @returns Legendre's polynomial of that order.
 */
export function legendre(order: number, t: number): number {
  if (order === 0) return 1;
  if (order === 1) return t;
  return order === 2 ? 1.5 * t * t - 0.5 : 2.5 * t * t * t - 1.5 * t;
}
