import { median } from '../../numeric/median.js';
import { addRow, type System } from './add-row.js';
import { strengthOf } from './fit-pencil.js';
import type { PerpendSight } from './guess-stand.js';
import { toWallAxes } from './lay-plane.js';
import { standSize as size, toStand } from './to-stand.js';

/** Deviation of a perpend's direction that is right. */
const lean = 0.012;

function leanAt(theta: Float64Array, { u, v }: PerpendSight): number {
  const stand = toStand(theta);
  const { fall } = toWallAxes(stand);
  const { focal, ahead } = stand;
  return (focal * fall[0] - (u - ahead.u) * fall[2]) / (focal * fall[1] - (v - ahead.v) * fall[2]);
}

/**
 * Add to the fit of a wall that its perpends are square to its beds.
 *
 * @param perpends - Their directions.
 * @param theta - The numbers that are fitted, so far.
 * @param system - Added to.
 */
export function addPerpends(
  perpends: readonly PerpendSight[],
  theta: Float64Array,
  system: System,
): void {
  const row = new Float64Array(size);
  const shown = perpends.filter(({ weight }) => strengthOf(weight) > 0);
  const misfits = shown.map((seen) => seen.slope - leanAt(theta, seen));
  const spread = Math.max(lean, 1.4826 * median(Float64Array.from(misfits, Math.abs)));
  for (const [i, seen] of shown.entries()) {
    const here = leanAt(theta, seen);
    const off = misfits[i]!;
    const share = off / (5 * spread);
    if (Math.abs(share) >= 1) continue;
    for (let p = 0; p < size; p++) {
      const moved = theta.slice();
      const step = 1e-5 * Math.max(1, Math.abs(moved[p]!));
      moved[p]! += step;
      row[p] = (leanAt(moved, seen) - here) / step;
    }
    const trust = ((1 - share * share) ** 2 * strengthOf(seen.weight)) / 12 / (spread * spread);
    addRow(row, trust, off, system);
  }
}
