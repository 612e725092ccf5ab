import type { Raster } from '../../raster/raster.js';
import { shorterWay } from '../../numeric/shorter-way.js';
import { transposeRaster } from '../../raster/transpose-raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { takePlane, type Window } from '../calm/take-window.js';
import type { Cell } from '../extend/cell.js';
import { fadeOver } from '../extend/fade-over.js';
import { mortarAround } from '../extend/mortar-around.js';
import type { Courses } from './see-mortar.js';
import type { BondPeriod } from './find-uprights.js';
import type { Joints } from './see-joints.js';
import { chooseWhole } from './choose-whole.js';
import { layCell } from './lay-cell.js';
import { type BrickCell, cellsOf, listCells, type SeenBrick } from './list-cells.js';
import { type JoinedAxis, originOf } from './origin-of.js';
import type { SeenWall } from './see-wall.js';

/** A tile and what it was made of. */
export interface JoinedTile {
  /** Joined; its planes are written to. */
  readonly tile: Raster;
  /** Looks at the picture, in whole times fewer pixels. */
  readonly look: (times: number) => SeenWall;
  /** How it was joined along each axis, x first, or null where it was not. */
  readonly ends: PerAxis<JoinedAxis | null>;
  /** Whether it meets itself along each axis by now. */
  readonly closed: PerAxis<boolean>;
  /** Where courses lie in the picture, and how long a brick is. */
  readonly joints: Joints;
}

/** What became of bricks that a cut ran through. */
export interface HealedBricks {
  /** How many were replaced by whole ones. */
  readonly replaced: number;
  /** How many are still of two pieces: the picture shows no whole one that fits. */
  readonly left: number;
}

// Of a brick so much may come from elsewhere: the cut ran along its edge.
const mostOther = 0.04;
// So often at least a brick is looked at across its height.
const looks = 16;
// More pixels than any picture has a side of.
const farthest = 2 ** 24;
// How far beside the overlap bricks are looked at, in bricks or courses.
const beside = 1.6;
// In lower courses nobody sees that a brick is of two pieces.
const leastCourse = 8;
// Sides of a brick on which mortar is seen, and by how much its light is changed at most.
const mortarSides = 6;
const mostGain = 0.12;
// Pixels by which a joint may miss the one that it comes to lie on.
const mostMissed = 1;

/**
 * Replace every brick that a cut ran through by a whole one of the picture: the one that the cut
 * parted, where the picture shows all of it, or another as long.
 *
 * @param joined - The tile.
 * @returns What was done.
 */
export function healBricks(joined: JoinedTile): HealedBricks {
  const { tile, ends, closed, joints } = joined;
  if (joints.brick === null || joints.course < leastCourse) return { replaced: 0, left: 0 };
  const turned = joints.axis === 'x';
  const level = turned ? { x: ends.y, y: ends.x } : ends;
  const wall: LevelWall = {
    reaches: { x: reachOf(level.x), y: reachOf(level.y) },
    tile: turned ? transposeRaster(tile) : tile,
    look: joined.look,
    ends: level,
    closed: turned ? { x: closed.y, y: closed.x } : closed,
    courses: { course: joints.course, offset: joints.offset },
    brick: joints.brick,
    bond: joints.bond ?? null,
    origin: (x, y) => {
      if (!turned) return originOf(ends, x, y);
      const { x: down, y: across } = originOf(ends, y, x);
      return { x: across, y: down };
    },
  };
  const split = onceEach(wall.tile, [...splitAlong(wall, 'x'), ...splitAlong(wall, 'y')]);
  if (split.length === 0) return { replaced: 0, left: 0 };
  const replaced = replaceAll(wall, split);
  if (turned) {
    for (const [channel, plane] of transposeRaster(wall.tile).planes.entries()) {
      tile.planes[channel]!.set(plane);
    }
  }
  return { replaced, left: split.length - replaced };
}

// With its courses level.
interface LevelWall extends Omit<JoinedTile, 'joints'> {
  // In the picture.
  readonly courses: Courses;
  readonly brick: number;
  readonly bond: BondPeriod | null;
  readonly origin: (x: number, y: number) => PerAxis<number>;
  readonly reaches: PerAxis<Reach | null>;
}

// Bricks of two pieces along a seam, in pixels of the tile.
function splitAlong(wall: LevelWall, axis: 'x' | 'y'): SeenBrick[] {
  const { tile, ends, courses } = wall;
  const end = ends[axis];
  if (end === null) return [];
  const window = bandAbout(wall, axis, end.overlap);
  const [red, green, blue] = tile.planes.map((plane) => takePlane(plane, tile, window));
  if (red === undefined || green === undefined || blue === undefined) return [];
  const band: Raster = { ...window, planes: [red, green, blue] };
  const offset = courses.offset - (ends.y?.start ?? 0) - window.y;
  const { cells, joint } = listCells(band, { course: courses.course, offset }, wall);
  return cells.flatMap((cell) => {
    const place = moved(cell, window);
    if (!isSplit(wall, place, joint)) return [];
    return [{ ...cell, ...place, mortar: mortarAround(band, cell, joint) }];
  });
}

// About the seam and all along it, and round the tile's end where it goes on there.
function bandAbout(
  { tile, closed, courses: { course }, brick }: LevelWall,
  axis: 'x' | 'y',
  overlap: number,
): Window {
  const [left, top] = [Math.ceil(beside * brick), Math.ceil(beside * course)];
  const along = (length: number, reach: number): { from: number; size: number } => {
    const size = Math.min(length, overlap + 2 * reach);
    return { from: (overlap - size) >> 1, size };
  };
  const around = (
    length: number,
    reach: number,
    meets: boolean,
  ): { from: number; size: number } => {
    const more = meets ? Math.min(reach, length >> 1) : 0;
    return { from: -more, size: length + 2 * more };
  };
  const x = axis === 'x' ? along(tile.width, left) : around(tile.width, left, closed.x);
  const y = axis === 'y' ? along(tile.height, top) : around(tile.height, top, closed.y);
  return { x: x.from, y: y.from, width: x.size, height: y.size };
}

function moved({ left, right, top, bottom }: Cell, { x, y }: PerAxis<number>): Cell {
  return { left: left + x, right: right + x, top: top + y, bottom: bottom + y };
}

// Whether what lies within its joints is of more than one piece of the picture.
function isSplit(wall: LevelWall, cell: Cell, joint: number): boolean {
  const { origin, reaches, tile } = wall;
  const shy = 0.6 * joint;
  const [left, right] = [Math.round(cell.left + shy), Math.ceil(cell.right - shy - 0.5)];
  const [top, bottom] = [Math.round(cell.top + shy), Math.ceil(cell.bottom - shy - 0.5)];
  if (
    isClear(reaches.x, { from: left, to: right, period: tile.width }) &&
    isClear(reaches.y, { from: top, to: bottom, period: tile.height })
  ) {
    return false;
  }
  const every = Math.max(
    1,
    Math.floor(Math.min(cell.right - cell.left, cell.bottom - cell.top) / looks),
  );
  const pieces = new Map<number, number>();
  let [all, most] = [0, 0];
  for (let y = top; y < bottom; y += every) {
    for (let x = left; x < right; x += every) {
      const from = origin(x, y);
      const piece = (from.x - x) * farthest + (from.y - y);
      const size = (pieces.get(piece) ?? 0) + 1;
      pieces.set(piece, size);
      most = Math.max(most, size);
      all++;
    }
  }
  return all - most > mostOther * all;
}

// Between which places a seam runs; null where there is none.
function reachOf(end: JoinedAxis | null): Reach | null {
  if (end === null) return null;
  let [from, to] = [Infinity, -Infinity];
  for (const place of end.border) {
    from = Math.min(from, place);
    to = Math.max(to, place);
  }
  return { from, to };
}

interface Reach {
  readonly from: number;
  readonly to: number;
}

// Whether a seam does not come near some places of the tile, nor the middle of it, where what follows
// the seam and what lies before it meet.
function isClear(
  seam: Reach | null,
  { from, to, period }: Reach & { readonly period: number },
): boolean {
  if (seam === null) return true;
  const near = from - period * Math.round((from + to) / (2 * period));
  const far = near + to - from;
  const beside = far < seam.from || near >= seam.to;
  return beside && near > -period / 2 && far < period / 2;
}

// A brick that lies near both seams, or at the tile's end, is found twice.
function onceEach({ width, height }: Raster, cells: readonly SeenBrick[]): SeenBrick[] {
  const kept: SeenBrick[] = [];
  const apart = (one: number, other: number, length: number): number =>
    Math.abs(shorterWay(one - other, length));
  for (const cell of cells) {
    const reach = (cell.bottom - cell.top) / 3;
    const again = kept.some(
      (one) =>
        apart(one.left + one.right, cell.left + cell.right, 2 * width) < 2 * reach &&
        apart(one.top, cell.top, height) < reach,
    );
    if (!again) kept.push(cell);
  }
  return kept;
}

function replaceAll(wall: LevelWall, split: readonly SeenBrick[]): number {
  const { tile, look, ends, origin, courses } = wall;
  const seen = look(1);
  const picture = seen.raster;
  const { cells, joint } = cellsOf(seen, wall);
  const see = (cell: BrickCell): SeenBrick => ({
    ...cell,
    mortar: mortarAround(picture, cell, joint),
  });
  const { course } = courses;
  const chosen = chooseWhole({ split, cells, see, tile, ends, origin, course });
  let replaced = 0;
  for (const [i, from] of chosen.entries()) {
    if (from === null) continue;
    const to = split[i]!;
    const laid = { to, fade: fadeOver(joint), gains: gainsOf(to, from) };
    layCell(tile, picture, { ...laid, from: unstretched(from, to) ?? from });
    replaced++;
  }
  return replaced;
}

// Whole pixels away, so that no grain is lost, where that leaves its joints on the other's.
function unstretched(from: Cell, to: Cell): Cell | null {
  const x = Math.round((from.left + from.right - to.left - to.right) / 2);
  const y = Math.round((from.top + from.bottom - to.top - to.bottom) / 2);
  const exact = moved(to, { x, y });
  const sides = ['left', 'right', 'top', 'bottom'] as const;
  return sides.every((side) => Math.abs(exact[side] - from[side]) <= mostMissed) ? exact : null;
}

// Mortar is as light as that around it.
function gainsOf(to: SeenBrick, from: SeenBrick): [number, number, number] {
  const gain = (channel: number): number => {
    let [here, there] = [1e-4, 1e-4];
    for (let side = 0; side < mortarSides; side++) {
      here += to.mortar[3 * side + channel]!;
      there += from.mortar[3 * side + channel]!;
    }
    return Math.min(1 + mostGain, Math.max(1 - mostGain, (here / there) ** 2));
  };
  return [gain(0), gain(1), gain(2)];
}
