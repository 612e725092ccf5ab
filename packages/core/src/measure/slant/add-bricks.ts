import { median } from '../../numeric/median.js';
import { addRow, type System } from './add-row.js';
import { toWallAxes } from './lay-plane.js';
import { standSize as size, toStand } from './to-stand.js';

/** Places of perpends in the photo, in units of half its diagonal from its middle. */
export interface BrickPoints {
  /** To the right. */
  readonly u: Float64Array;
  /** Down. */
  readonly v: Float64Array;
  /** Bricks along the course, counted from any place of their group. */
  readonly n: Float64Array;
  /** Which were counted together: only how far they lie apart is known. */
  readonly group: Int32Array;
}

/** Bounds of the deviation of perpends from where equal bricks would have them, in bricks. */
const leastSpread = 0.004;
const mostSpread = 0.06;
/** Bricks go on from one another, so that neighbours share errors: so many tell as much as one. */
const alike = 3;

/**
 * Add to the fit of a wall that its bricks are of one length.
 *
 * @param bricks - Where perpends lie.
 * @param theta - The numbers that are fitted, so far.
 * @param system - Added to.
 */
export function addBricks(bricks: BrickPoints, theta: Float64Array, system: System): void {
  const { n, group } = bricks;
  const count = n.length;
  const weight = new Float64Array(count).fill(1);
  const along = placeAlong(bricks, theta);
  const counted = centre(n, group, weight);
  if (theta[10] === 0) theta[10] = rateOf(counted, centre(along, group, weight));
  const misfit = counted.map((bricksOn, i) => bricksOn - theta[10]! * along[i]!);
  const off = centre(misfit, group, weight);
  const spread = clamp(1.4826 * median(off.map(Math.abs)));
  for (let i = 0; i < count; i++) {
    const share = off[i]! / (4.685 * spread);
    weight[i] = Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
  }
  const rows = slopesOf(bricks, theta, along).map((slopes) => centre(slopes, group, weight));
  const left = centre(misfit, group, weight);
  const row = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    for (let p = 0; p < size; p++) row[p] = rows[p]![i]!;
    addRow(row, weight[i]! / (alike * spread * spread), left[i]!, system);
  }
}

const clamp = (spread: number): number => Math.min(mostSpread, Math.max(leastSpread, spread));

// Where along the wall each lies, in units of the camera's height above it.
function placeAlong({ u, v }: BrickPoints, theta: Float64Array): Float64Array {
  const stand = toStand(theta);
  const { bed, normal } = toWallAxes(stand);
  const { focal, ahead } = stand;
  const lens = theta[5]!;
  const along = new Float64Array(u.length);
  for (let i = 0; i < along.length; i++) {
    const [right, down] = [u[i]!, v[i]!];
    const out = 1 + lens * (right * right + down * down);
    const x = (right * out - ahead.u) / focal;
    const y = (down * out - ahead.v) / focal;
    along[i] = (bed[0] * x + bed[1] * y + bed[2]) / (normal[0] * x + normal[1] * y + normal[2]);
  }
  return along;
}

// How the bricks counted change with each number that is fitted.
function slopesOf(
  bricks: BrickPoints,
  theta: Float64Array,
  along: Float64Array,
): readonly Float64Array[] {
  const rate = theta[10]!;
  return Array.from(theta, (value, p) => {
    if (p === 10) return along;
    const step = 1e-6 * Math.max(1, Math.abs(value));
    const moved = theta.slice();
    moved[p] = value + step;
    return placeAlong(bricks, moved).map((there, i) => (rate * (there - along[i]!)) / step);
  });
}

function rateOf(counted: Float64Array, along: Float64Array): number {
  let both = 0;
  let square = 0;
  for (let i = 0; i < along.length; i++) {
    both += counted[i]! * along[i]!;
    square += along[i]! * along[i]!;
  }
  return both / square;
}

// Less the weighted mean of each group.
function centre(values: Float64Array, group: Int32Array, weight: Float64Array): Float64Array {
  const groups = 1 + group.reduce((most, one) => Math.max(most, one), 0);
  const sums = new Float64Array(groups);
  const weights = new Float64Array(groups);
  for (let i = 0; i < values.length; i++) {
    const to = group[i]!;
    sums[to] = sums[to]! + weight[i]! * values[i]!;
    weights[to] = weights[to]! + weight[i]!;
  }
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i++) {
    const of = group[i]!;
    if (weights[of]! > 0) out[i] = values[i]! - sums[of]! / weights[of]!;
  }
  return out;
}
