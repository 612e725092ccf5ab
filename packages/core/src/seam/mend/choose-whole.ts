import { shorterWay } from '../../numeric/shorter-way.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { spreadOfMortar } from '../extend/spread-of-mortar.js';
import { weighOddness } from '../extend/weigh-oddness.js';
import type { BrickCell, SeenBrick } from './list-cells.js';
import type { JoinedAxis } from './origin-of.js';

/** Bricks to be replaced, and what by. */
export interface WholeChoice {
  /** Bricks of two pieces, in pixels of the tile. */
  readonly split: readonly SeenBrick[];
  /** Bricks of the picture, in its pixels. */
  readonly cells: readonly BrickCell[];
  /** See more of one of these. */
  readonly see: (cell: BrickCell) => SeenBrick;
  /** The tile. */
  readonly tile: Pick<Raster, 'width' | 'height'>;
  /** How it was joined along each axis. */
  readonly ends: PerAxis<JoinedAxis | null>;
  /** Which pixel of the picture one of the tile is. */
  readonly origin: (x: number, y: number) => PerAxis<number>;
  /** Height of a course, in pixels. */
  readonly course: number;
}

// A whole brick shows both its upright joints, and none within.
const leastEnds = 0.35;
const mostSplit = 0.5;
// How far its length and height may be from the other's, as shares, or in pixels where that is more.
const mostOff = { length: 0.1, height: 0.2, pixels: 1.5 };
// What speaks against a brick, in variances of mortar: that it lies in the tile already, that it lies
// near, that it was taken before, that it catches the eye, that it must be stretched that far.
const shown = 1;
const nearby = 8;
const taken = 3;
const odd = 6;
const stretched = 1.5;
// What speaks for one that the cut parted: all around it is as it should be.
const own = 20;
// Of so many whole bricks one suits as well as of more.
const enough = 600;
// Copies further apart than this, in bricks, are seen no more than any other.
const farOff = 5;

/**
 * Choose a whole brick of a picture for each that was cut through.
 *
 * @param choice - Which, and what there is.
 * @returns For each, what takes its place; null where nothing fits.
 */
export function chooseWhole(choice: WholeChoice): (SeenBrick | null)[] {
  const { split, cells, see } = choice;
  const whole = cells.filter((cell) => cell.ends >= leastEnds && cell.split <= mostSplit);
  const every = Math.max(1, whole.length / enough);
  const some = Array.from({ length: Math.floor(whole.length / every) }, (_, i) =>
    see(whole[Math.floor(i * every)]!),
  );
  const oddness = weighOddness(some);
  const spread = spreadOfMortar(some);
  const uses = new Map<BrickCell, SeenBrick[]>();
  const suits = (cell: SeenBrick, place: SeenBrick): number =>
    stretched * misfitOf(cell, place) ** 2 + unlikeness(cell, place) / spread;
  return split.map((place) => {
    let [best, least] = [findParted(choice, whole, place), Infinity];
    if (best !== null) least = suits(best, place) - own;
    // Nothing speaks for any other.
    for (let i = 0; i < some.length && least > 0; i++) {
      const cell = some[i]!;
      if (misfitOf(cell, place) > 1) continue;
      const alone = suits(cell, place) + odd * oddness[i]!;
      if (alone >= least) continue;
      const cost = alone + crowding(choice, { cell, place, used: uses.get(cell) ?? [] });
      if (cost < least) [best, least] = [cell, cost];
    }
    if (best !== null) uses.set(best, [...(uses.get(best) ?? []), place]);
    return best;
  });
}

// The brick of the picture that the cut ran through, where it shows all of it.
function findParted(
  choice: WholeChoice,
  whole: readonly BrickCell[],
  place: SeenBrick,
): SeenBrick | null {
  let best: BrickCell | null = null;
  let least = 1;
  for (const cell of whole) {
    if (!isParted(choice, cell, place)) continue;
    const misfit = misfitOf(cell, place);
    if (misfit <= least) [best, least] = [cell, misfit];
  }
  return best === null ? null : choice.see(best);
}

// 0 the same size, 1 as far from it as may be.
function misfitOf(cell: BrickCell, place: BrickCell): number {
  const length = place.right - place.left;
  const height = place.bottom - place.top;
  const along = Math.abs(cell.right - cell.left - length);
  const down = Math.abs(cell.bottom - cell.top - height);
  return Math.max(
    along / Math.max(mostOff.pixels, mostOff.length * length),
    down / Math.max(mostOff.pixels, mostOff.height * height),
  );
}

// Mortar on six sides, in three colours.
const size = 18;

function unlikeness(cell: SeenBrick, place: SeenBrick): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += (cell.mortar[i]! - place.mortar[i]!) ** 2;
  return sum / size;
}

interface Candidate {
  readonly cell: BrickCell;
  readonly place: BrickCell;
  // Places that it was taken for before.
  readonly used: readonly BrickCell[];
}

// Copies of it that the tile shows, and how near they lie.
function crowding(choice: WholeChoice, { cell, place, used }: Candidate): number {
  const { tile, origin, course } = choice;
  const [here, middle] = [middleOf(place), middleOf(cell)];
  const length = place.right - place.left;
  const lies = placesIn(choice, middle);
  const apart = (one: PerAxis<number>): PerAxis<number> => ({
    x: shorterWay(one.x - here.x, tile.width),
    y: shorterWay(one.y - here.y, tile.height),
  });
  const copies = used.map(middleOf);
  const seen = lies.find(({ x, y }) => {
    const from = origin(Math.round(x), Math.round(y));
    return Math.abs(from.x - middle.x) < 2 && Math.abs(from.y - middle.y) < 2;
  });
  if (seen !== undefined) copies.push(seen);
  const far = farOff * Math.max(length, 2 * course);
  let cost = taken * used.length + (seen === undefined ? 0 : shown);
  for (const { x, y } of copies.map(apart)) {
    const away = Math.sqrt(x * x + 4 * y * y);
    if (away < far) cost += nearby * (1 - away / far);
  }
  return cost;
}

// Whether a brick of the picture is the one at a place, which the cut ran through.
function isParted({ tile, ends, course }: WholeChoice, cell: BrickCell, place: BrickCell): boolean {
  const [across, down] = [cell.left + cell.right, cell.top + cell.bottom];
  return (
    liesNear(ends.y, (down - place.top - place.bottom) / 2, tile.height) < course / 3 &&
    liesNear(ends.x, (across - place.left - place.right) / 2, tile.width) <
      (place.right - place.left) / 4
  );
}

function liesNear(end: JoinedAxis | null, apart: number, length: number): number {
  if (end === null) return Math.abs(shorterWay(apart, length));
  const near = Math.abs(shorterWay(apart - end.start, length));
  return Math.min(near, Math.abs(shorterWay(apart - end.start - end.period, length)));
}

// Where in the tile a pixel of the picture may lie.
function placesIn({ ends }: WholeChoice, at: PerAxis<number>): PerAxis<number>[] {
  const along = (end: JoinedAxis | null, place: number): number[] =>
    end === null ? [place] : [place - end.start, place - end.start - end.period];
  const rows = along(ends.y, at.y);
  return along(ends.x, at.x).flatMap((x) => rows.map((y) => ({ x, y })));
}

function middleOf({ left, right, top, bottom }: BrickCell): PerAxis<number> {
  return { x: (left + right) / 2, y: (top + bottom) / 2 };
}
