import type { PerAxis } from '../surface/measurement.js';
import type { CellLight } from './cell-light.js';

/** A curve over the picture: one of x times one of y. */
export interface DriftCurve {
  /** Order of it along x, 0 to 2. */
  readonly x: number;
  /** Down y. */
  readonly y: number;
}

/**
 * List the curves that the light of a picture may follow: slopes and, where there are cells
 * enough, bows. They hold the fall-off of light and of a lens to a hundredth; finer ones would take
 * patches for light.
 *
 * @param count - Cells across and down.
 * @param along - Along which axes light may drift; not along one on which the picture meets itself.
 * @returns Slopes first.
 */
export function listCurves(count: PerAxis<number>, along: PerAxis<boolean>): DriftCurve[] {
  const most = { x: along.x ? orderOf(count.x) : 0, y: along.y ? orderOf(count.y) : 0 };
  const curves: DriftCurve[] = [];
  for (let order = 1; order <= 2; order++) {
    for (let y = 0; y <= order; y++) {
      const x = order - y;
      if (x <= most.x && y <= most.y) curves.push({ x, y });
    }
  }
  // Four cells to a curve, or the curves would draw the cells themselves.
  return curves.slice(0, Math.max(0, Math.floor((count.x * count.y) / 4) - 1));
}

function orderOf(cells: number): number {
  return cells >= 5 ? 2 : cells >= 3 ? 1 : 0;
}

/**
 * Lay curves over cells.
 *
 * @param places - Middles of the cells, -1 to 1 over the picture.
 * @param curves - None, or more.
 * @returns A level one, 1 everywhere, and then these: so many numbers a cell, cell by cell.
 */
export function layCurves(
  places: Pick<CellLight, 'x' | 'y'>,
  curves: readonly DriftCurve[],
): Float64Array {
  const { x, y } = places;
  const wide = curves.length + 1;
  const table = new Float64Array(x.length * wide);
  for (let cell = 0; cell < x.length; cell++) {
    table[cell * wide] = 1;
    for (const [i, curve] of curves.entries()) {
      table[cell * wide + 1 + i] = legendre(curve.x, x[cell]!) * legendre(curve.y, y[cell]!);
    }
  }
  return table;
}

/**
 * The polynomials that do not speak for one another.
 *
 * @param order - 0 to 2.
 * @param t - -1 to 1.
 * @returns Legendre's polynomial of that order.
 */
export function legendre(order: number, t: number): number {
  if (order === 0) return 1;
  if (order === 1) return t;
  return 1.5 * t * t - 0.5;
}
