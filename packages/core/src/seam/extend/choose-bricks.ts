import type { Face } from '../../catalogue/bonds/bond.js';
import type { Random } from './create-random.js';
import type { Place } from './lay-places.js';
import type { Brick } from './list-bricks.js';
import { spreadOfMortar } from './spread-of-mortar.js';
import { weighOddness } from './weigh-oddness.js';

/** What bricks are chosen from, and for. */
export interface BrickChoice {
  /** The places to fill. */
  readonly places: readonly Place[];
  /** What there is, at least one of every face. */
  readonly bricks: readonly Brick[];
  /** The tile's width, in pixels. */
  readonly width: number;
  /** Its courses. */
  readonly courses: number;
  /** Height of one, in pixels. */
  readonly course: number;
}

// What speaks against a brick, in variances of mortar: that its neighbour is the one it has in the
// photo, or itself; that it lies near by or was used more often than others, or catches the eye; and chance.
const verbatim = 4;
const itself = 40;
const nearby = 6;
const often = 1;
const odd = 4;
const luck = 1.5;
// So many at most are weighed for a place.
const mostWeighed = 48;

/**
 * Choose a brick for every place: of those whose mortar goes with that around it, one by chance;
 * not one that has the same neighbour in the photo, nor one that lies near by already.
 *
 * @param choice - Places and bricks.
 * @param random - Decides.
 * @returns For each place, the number of its brick.
 */
export function chooseBricks(choice: BrickChoice, random: Random): Int32Array {
  const { places, bricks } = choice;
  const state: State = {
    ...choice,
    chosen: new Int32Array(places.length).fill(-1),
    uses: bricks.map(() => []),
    spread: spreadOfMortar(bricks),
    pools: poolsOf(bricks),
    oddness: weighOddness(bricks),
  };
  // By turns all over: what few neighbours want would be left for the last course.
  const order = shuffled(places.length, random);
  for (const sweep of [0, 1]) {
    for (const at of order) {
      if (sweep > 0) take(state, at);
      const best = chooseOne(state, at, random);
      state.chosen[at] = best;
      state.uses[best]!.push(at);
    }
  }
  return state.chosen;
}

interface State extends BrickChoice {
  readonly chosen: Int32Array;
  // Where each brick lies by now.
  readonly uses: readonly number[][];
  // Variance of mortar, colour by colour.
  readonly spread: number;
  readonly pools: Readonly<Record<Face, readonly number[]>>;
  // How much each catches the eye, 0 to 1.
  readonly oddness: Float64Array;
}

function shuffled(count: number, random: Random): Int32Array {
  const order = Int32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

function take({ chosen, uses }: State, at: number): void {
  const used = uses[chosen[at]!]!;
  used.splice(used.indexOf(at), 1);
  chosen[at] = -1;
}

function chooseOne(state: State, at: number, random: Random): number {
  const pool = state.pools[state.places[at]!.face];
  const start = Math.floor(random() * pool.length);
  const count = Math.min(mostWeighed, pool.length);
  const step = pool.length <= mostWeighed ? 1 : Math.floor(pool.length / mostWeighed);
  let best = pool[start]!;
  let least = Infinity;
  for (let i = 0; i < count; i++) {
    const candidate = pool[(start + i * step) % pool.length]!;
    const cost = costOf(state, at, candidate) + luck * random();
    if (cost < least) [best, least] = [candidate, cost];
  }
  return best;
}

function costOf(state: State, at: number, candidate: number): number {
  const { before, after, above, below } = state.places[at]!;
  let cost = 0;
  // Sides of a brick's mortar: left, right, above left and right, below left and right.
  cost += besides(state, { at, candidate, other: before, own: 0, its: 1 });
  cost += besides(state, { at, candidate, other: after, own: 1, its: 0 });
  for (const half of [0, 1] as const) {
    const [up, down] = [above[half], below[half]];
    const own = 2 + half;
    cost += besides(state, { at, candidate, other: up.place, own, its: 4 + up.half }) / 2;
    cost +=
      besides(state, { at, candidate, other: down.place, own: own + 2, its: 2 + down.half }) / 2;
  }
  return cost + odd * state.oddness[candidate]! + crowding(state, at, candidate);
}

interface Meeting {
  readonly at: number;
  readonly candidate: number;
  // The place beside it, and which sides of the two bricks meet.
  readonly other: number;
  readonly own: number;
  readonly its: number;
}

function besides(state: State, { at, candidate, other, own, its }: Meeting): number {
  const { chosen, bricks, spread } = state;
  const there = chosen[other]!;
  if (there < 0 || other === at) return 0;
  if (there === candidate) return itself;
  const mine = bricks[candidate]!;
  const theirs = bricks[there]!;
  let unlike = 0;
  for (let channel = 0; channel < 3; channel++) {
    unlike += (mine.mortar[3 * own + channel]! - theirs.mortar[3 * its + channel]!) ** 2;
  }
  return unlike / (3 * spread) + (isVerbatim(state, { at, other }, mine, theirs) ? verbatim : 0);
}

// Whether two bricks lie to one another as they do in their photo.
function isVerbatim(
  { places, width, course }: State,
  { at, other }: { readonly at: number; readonly other: number },
  mine: Brick,
  theirs: Brick,
): boolean {
  if (mine.source !== theirs.source) return false;
  const here = places[at]!;
  const there = places[other]!;
  if (Math.abs(mine.course - theirs.course) > 1) return false;
  const inPhoto = mine.left - theirs.left;
  const inTile = here.left - there.left;
  const off = inTile - inPhoto;
  const across = Math.abs(off - Math.round(off / width) * width);
  const rows = mine.course - theirs.course;
  const down = here.course - there.course;
  const sameRow = rows === down || Math.abs(down) > 1;
  return sameRow && across < course / 4;
}

// Copies that lie near, and copies at all.
function crowding(state: State, at: number, candidate: number): number {
  const { places, uses, pools, width, courses, course } = state;
  const here = places[at]!;
  const pool = pools[here.face].length;
  const far = 0.7 * Math.sqrt(pool);
  let cost = (often * uses[candidate]!.length * pool) / places.length;
  for (const use of uses[candidate]!) {
    const there = places[use]!;
    const x = Math.abs(here.left - there.left);
    const y = Math.abs(here.course - there.course);
    const across = Math.min(x, width - x) / (3 * course);
    const down = Math.min(y, courses - y) / 2;
    const away = Math.sqrt(across * across + down * down);
    if (away < far) cost += nearby * (1 - away / far);
  }
  return cost;
}

function poolsOf(bricks: readonly Brick[]): State['pools'] {
  const of = (face: Face): readonly number[] =>
    bricks.flatMap((brick, i) => (brick.face === face ? [i] : []));
  return { stretcher: of('stretcher'), header: of('header') };
}
