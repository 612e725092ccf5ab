import { wrapInto } from '../../numeric/wrap-into.js';
import type { Canvas } from './canvas.js';
import { priceCut } from './price-cut.js';
import type { PatchPlace } from './place-patch.js';
import type { PatchOrigin, PatchSource } from './take-patch.js';

/** A patch that might go to a place. */
export interface PatchTrial {
  /** Where it is of. */
  readonly origin: PatchOrigin;
  /** Where it would go. */
  readonly place: PatchPlace;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Past this it is no good, and how bad it is does not matter. */
  readonly most: number;
}

// Pixels looked at: one in so many each way, in large patches and in small.
const coarse = 3;
const fine = 2;
const large = 80;

/**
 * Weigh how badly a patch goes with what lies around its place.
 *
 * @param canvas - What lies there.
 * @param source - The photo it is of.
 * @param trial - The patch and its place.
 * @returns Mean square of how far green differs where the two overlap. Along courses all colours count,
 * and of upright cuts the one where they differ least: they are to meet in mortar, or within one board.
 */
export function weighPatch(canvas: Canvas, source: PatchSource, trial: PatchTrial): number {
  const { place, width, height } = trial;
  const { across, down, meets } = place;
  const full = source.courses === null;
  let cost = 0;
  const left = { x: 0, y: 0, width: 2 * across, height };
  const top = { x: 0, y: 0, width, height: 2 * down };
  const weigh = (area: typeof left, sought: 'mean' | 'least'): number => {
    const columns = unlike(canvas, source, { ...trial, area });
    return sought === 'least' ? least(columns) : mean(columns);
  };
  const sides = full ? 'mean' : 'least';
  if (meets.left) cost += weigh(left, sides);
  if (meets.right) cost += weigh({ ...left, x: width - 2 * across }, sides);
  if (meets.top && cost <= trial.most) cost += weigh(top, 'mean');
  if (meets.bottom && cost <= trial.most) cost += weigh({ ...top, y: height - 2 * down }, 'mean');
  return cost;
}

interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

// Column by column of an area, how far what lies there differs from what would come; a column that is
// mortar in both counts less.
function unlike(
  canvas: Canvas,
  source: PatchSource,
  { origin, place, width, height, area }: PatchTrial & { readonly area: Area },
): Float64Array {
  const stride = Math.min(width, height) > large ? coarse : fine;
  const columns = new Float64Array(Math.max(1, Math.ceil(area.width / stride)));
  const counts = new Float64Array(columns.length);
  const [redThere, there, blueThere] = canvas.planes;
  const [redHere, here, blueHere] = source.roots;
  const likeness = source.courses?.mortar.likeness ?? null;
  for (let y = area.y; y < area.y + area.height; y += stride) {
    const row = wrapInto(place.y + y, canvas.height) * canvas.width;
    let column = wrapInto(place.x + area.x, canvas.width);
    const from = Math.round(origin.y + (y + 0.5) * origin.step - 0.5);
    const start = Math.min(source.height - 1, Math.max(0, from)) * source.width + origin.x;
    for (let i = 0, x = area.x; i < columns.length; i++, x += stride) {
      const at = row + column;
      column += stride;
      if (column >= canvas.width) column -= canvas.width;
      if (canvas.filled[at] === 0) continue;
      const step = here[start + x]! - there[at]!;
      let price = step * step;
      if (likeness !== null) {
        const red = redHere[start + x]! - redThere[at]!;
        const blue = blueHere[start + x]! - blueThere[at]!;
        const mortar = Math.min(likeness[start + x]!, canvas.likeness[at]!);
        price = priceCut((price + red * red + blue * blue) / 3, mortar);
      }
      columns[i]! += price;
      counts[i]!++;
    }
  }
  return columns.map((sum, i) => (counts[i]! > 0 ? sum / counts[i]! : 0));
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

// Two columns side by side: no cut is narrower.
function least(values: Float64Array): number {
  let best = Infinity;
  for (let i = 1; i < values.length; i++) best = Math.min(best, values[i - 1]! + values[i]!);
  return best / 2;
}
