import { chanceOf, hashCell } from './hash-cell.js';
import type { WallPoint, WeatherSite } from './site.js';

/** What is strewn over a wall by chance, one at most in each cell of it. */
export interface ScatterWish {
  /** Tells it from all others. */
  readonly id: number;
  /** Millimetres of the wall to a cell. */
  readonly cell: WallPoint;
  /** Share of the cells that hold one, 0 to 1. */
  readonly share: number;
  /** How far above and below itself one shows, mm. */
  readonly reach: { readonly up: number; readonly down: number };
}

/** One of them. */
export interface Scattered extends WallPoint {
  /** Millimetres of the wall to a cell, as it came to be. */
  readonly cell: WallPoint;
  /** Numbers of its own, 0 up to 1, by which: 0, 1, 2…. */
  readonly chance: (which: number) => number;
}

/**
 * Strew things over a wall.
 *
 * @param site - The wall, and how much of its width is looked at.
 * @param wish - What.
 * @returns What lists those that a row at so many mm down may show.
 */
export function scatter(site: WeatherSite, wish: ScatterWish): (y: number) => readonly Scattered[] {
  const { ground, run } = site;
  const { share, reach } = wish;
  const { period } = ground;
  const wrap = { x: countOf(wish.cell.x, period.x), y: countOf(wish.cell.y, period.y) };
  const cell = {
    x: wrap.x === 0 ? wish.cell.x : period.x / wrap.x,
    y: wrap.y === 0 ? wish.cell.y : period.y / wrap.y,
  };
  const seed = hashCell(wish.id, 0, ground.seed);
  const from = Math.floor((run.first * run.step + run.start) / cell.x) - 1;
  const to = Math.floor(((run.first + run.count) * run.step + run.start) / cell.x) + 1;
  const list = (row: number): Scattered[] => {
    const found: Scattered[] = [];
    for (let column = from; column <= to; column++) {
      const [u, v] = [around(column, wrap.x), around(row, wrap.y)] as const;
      if (chanceOf(u, v, seed) >= share) continue;
      const chance = (which: number): number => chanceOf(u, v, (seed + 3 + which) | 0);
      const x = (column + placeIn(wrap.x, chanceOf(u, v, (seed + 1) | 0))) * cell.x;
      const y = (row + placeIn(wrap.y, chanceOf(u, v, (seed + 2) | 0))) * cell.y;
      found.push({ x, y, cell, chance });
    }
    return found;
  };
  // Rows of places follow one another closely, and most ask for the same.
  let [heldFrom, heldTo] = [NaN, NaN];
  let held: readonly Scattered[] = [];
  return (y) => {
    const first = Math.floor((y - reach.down) / cell.y);
    const last = Math.floor((y + reach.up) / cell.y);
    if (first !== heldFrom || last !== heldTo) {
      const rows = Array.from({ length: last - first + 1 }, (_, i) => list(first + i));
      [heldFrom, heldTo, held] = [first, last, rows.flat()];
    }
    return held.filter((one) => y > one.y - reach.up && y < one.y + reach.down);
  };
}

// Never close to its cell's edge, so that no two touch; and where that is where a tile meets itself, so far from it
// that nothing begins or ends there.
function placeIn(wrap: number, chance: number): number {
  return wrap === 0 ? 0.15 + 0.7 * chance : 0.4 + 0.2 * chance;
}

function countOf(cell: number, period: number): number {
  return period === 0 ? 0 : Math.max(1, Math.round(period / cell));
}

function around(at: number, count: number): number {
  return count === 0 ? at : at - Math.floor(at / count) * count;
}
