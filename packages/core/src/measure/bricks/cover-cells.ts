/** Cells of a grid, some of them marked. */
export interface MarkedCells {
  /** How many across. */
  readonly columns: number;
  /** How many down. */
  readonly rows: number;
  /** `columns * rows` cells, a whole column after another: 1 marked. */
  readonly marked: Uint8Array;
}

/** Cells from a left edge up to a right one, and from a top up to a foot. */
export interface CellBox {
  /** First column. */
  readonly left: number;
  /** One past the last. */
  readonly right: number;
  /** First row. */
  readonly top: number;
  /** One past the last. */
  readonly foot: number;
}

/** A box that is marked to this share is taken as it is. */
const full = 0.7;
/** A cut that leaves out less than this share of a box is not worth another box, if half is full. */
const worthwhile = 0.22;

/**
 * Cover marked cells with few boxes: each connected patch by one, or by several where it is far
 * from filling one.
 *
 * @param cells - Some of them marked.
 * @param few - Patches and boxes of fewer marked cells are left out.
 * @returns Boxes.
 */
export function coverCells(cells: MarkedCells, few: number): CellBox[] {
  return findPatches(cells)
    .filter((patch) => patch.length >= few)
    .flatMap((patch) => coverPatch(patch, few));
}

interface Cell {
  readonly s: number;
  readonly k: number;
}

function findPatches({ columns, rows, marked }: MarkedCells): Cell[][] {
  const left = marked.slice();
  const patches: Cell[][] = [];
  for (let start = 0; start < left.length; start++) {
    if (left[start] === 0) continue;
    const patch: Cell[] = [];
    const open = [start];
    left[start] = 0;
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      const [s, k] = [Math.floor(at / rows), at % rows];
      patch.push({ s, k });
      for (const [i, j] of [
        [s - 1, k],
        [s + 1, k],
        [s, k - 1],
        [s, k + 1],
      ] as const) {
        const next = i * rows + j;
        if (i < 0 || i >= columns || j < 0 || j >= rows || left[next] === 0) continue;
        left[next] = 0;
        open.push(next);
      }
    }
    patches.push(patch);
  }
  return patches;
}

function boxOf(patch: readonly Cell[]): CellBox {
  let [left, right, top, foot] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { s, k } of patch) {
    left = Math.min(left, s);
    right = Math.max(right, s + 1);
    top = Math.min(top, k);
    foot = Math.max(foot, k + 1);
  }
  return { left, right, top, foot };
}

const areaOf = ({ left, right, top, foot }: CellBox): number => (right - left) * (foot - top);

// Cut where both sides together are least empty, until each is nearly full.
function coverPatch(patch: readonly Cell[], few: number): CellBox[] {
  if (patch.length < few) return [];
  const box = boxOf(patch);
  if (patch.length >= full * areaOf(box)) return [box];
  let best: { readonly area: number; readonly sides: readonly Cell[][] } | null = null;
  for (const key of ['s', 'k'] as const) {
    const [from, to] = key === 's' ? [box.left, box.right] : [box.top, box.foot];
    for (let cut = from + 1; cut < to; cut++) {
      const sides = [patch.filter((c) => c[key] < cut), patch.filter((c) => c[key] >= cut)];
      const area = sides.reduce((sum, side) => sum + (side.length ? areaOf(boxOf(side)) : 0), 0);
      if (best === null || area < best.area) best = { area, sides };
    }
  }
  if (best === null) return [box];
  const saved = 1 - best.area / areaOf(box);
  if (saved < worthwhile && patch.length >= 0.5 * areaOf(box)) return [box];
  return best.sides.flatMap((side) => coverPatch(side, few));
}
