import type { Raster } from '../../raster/raster.js';
import type { Cell } from '../extend/cell.js';
import { bedAt, placeBeds } from '../extend/place-beds.js';
import { type Courses, seeMortar } from './see-mortar.js';
import { seePerpends } from '../extend/see-perpends.js';
import { type BondPeriod, findUprights } from './find-uprights.js';
import type { SeenWall } from './see-wall.js';

/** A brick, by the middles of the joints around it. */
export interface BrickCell extends Cell {
  /** How like a joint the fainter of its two upright joints is, 0 to 1. */
  readonly ends: number;
  /** How like mortar its own middle is, at the worst column: above 0.5 it is perhaps two bricks. */
  readonly split: number;
}

/** The same, and what is seen of it. */
export interface SeenBrick extends BrickCell {
  /** Colour of its mortar and its face, as {@link mortarAround} tells. */
  readonly mortar: Float64Array;
}

/** How bricks are laid. */
export interface LaidBricks {
  /** One brick with its joint, in pixels. */
  readonly brick: number;
  /** How they are laid, or null where nobody knows. */
  readonly bond: BondPeriod | null;
}

/** The bricks of a picture. */
export interface BrickCells {
  /** From left to right, course by course. */
  readonly cells: readonly BrickCell[];
  /** A joint's width in pixels. */
  readonly joint: number;
}

/**
 * List the bricks of a picture whose four joints it shows, whatever the bond.
 *
 * @param raster - Level courses, in linear light.
 * @param courses - Where its bed joints lie, nearly.
 * @param laid - How long a brick is, and how they are laid.
 * @returns Each by its own joints.
 */
export function listCells(raster: Raster, courses: Courses, laid: LaidBricks): BrickCells {
  const mortar = seeMortar(raster, courses);
  return cellsOf({ mortar, beds: placeBeds(mortar, courses) }, laid);
}

/**
 * The same of a wall that was seen.
 *
 * @param wall - What in it is mortar.
 * @param laid - How long a brick is, and how they are laid.
 * @returns Each by its own joints.
 */
export function cellsOf(wall: Pick<SeenWall, 'mortar' | 'beds'>, laid: LaidBricks): BrickCells {
  const { mortar, beds } = wall;
  const lines = seePerpends(mortar, beds);
  const cells: BrickCell[] = [];
  for (const [course, uprights] of findUprights(lines, laid.brick, laid.bond).entries()) {
    const line = lines.courses[course]!;
    for (let i = 0; i + 1 < uprights.length; i++) {
      const [left, right] = [uprights[i]!, uprights[i + 1]!];
      const middle = (left + right) / 2;
      const top = bedAt(beds, course, middle);
      const bottom = bedAt(beds, course + 1, middle);
      const ends = Math.min(peakAt(line, left), peakAt(line, right));
      cells.push({ left, right, top, bottom, ends, split: splitOf(line, left, right) });
    }
  }
  return { cells, joint: mortar.joint };
}

function peakAt(line: Float64Array, x: number): number {
  const at = Math.round(x - 0.5);
  return Math.max(line[at - 1] ?? 0, line[at] ?? 0, line[at + 1] ?? 0);
}

function splitOf(line: Float64Array, left: number, right: number): number {
  const shy = 0.2 * (right - left);
  let most = 0;
  for (let x = Math.ceil(left + shy); x < right - shy; x++) most = Math.max(most, line[x]!);
  return most;
}
