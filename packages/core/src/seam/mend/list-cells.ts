import type { Raster } from '../../raster/raster.js';
import type { Cell } from '../extend/cell.js';
import { mortarAround } from '../extend/mortar-around.js';
import { bedAt, type Beds, placeBeds } from '../extend/place-beds.js';
import { type Courses, seeMortar } from '../see-mortar.js';
import { seePerpends } from '../extend/see-perpends.js';
import { type BondPeriod, findUprights } from '../find-uprights.js';

/** A brick, by the middles of the joints around it. */
export interface BrickCell extends Cell {
  /** How like a joint the fainter of its two upright joints is, 0 to 1. */
  readonly ends: number;
  /** How like mortar its own middle is, at the worst column: above 0.5 it is perhaps two bricks. */
  readonly split: number;
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
  const beds = placeBeds(mortar, courses);
  const lines = seePerpends(mortar, beds);
  const { joint } = mortar;
  const cells = findUprights(lines, laid.brick, laid.bond).flatMap((uprights, course) =>
    [...uprights.subarray(0, -1)].map((left, i) => {
      const cell = cellOf(beds, { course, left, right: uprights[i + 1]! });
      const line = lines.courses[course]!;
      const ends = Math.min(peakAt(line, cell.left), peakAt(line, cell.right));
      return {
        ...cell,
        ends,
        split: splitOf(line, cell),
        mortar: mortarAround(raster, cell, joint),
      };
    }),
  );
  return { cells, joint };
}

function cellOf(
  beds: Beds,
  {
    course,
    left,
    right,
  }: { readonly course: number; readonly left: number; readonly right: number },
): Cell {
  const middle = (left + right) / 2;
  return { left, right, top: bedAt(beds, course, middle), bottom: bedAt(beds, course + 1, middle) };
}

function peakAt(line: Float64Array, x: number): number {
  const at = Math.round(x - 0.5);
  return Math.max(line[at - 1] ?? 0, line[at] ?? 0, line[at + 1] ?? 0);
}

function splitOf(line: Float64Array, { left, right }: Cell): number {
  const shy = 0.2 * (right - left);
  let most = 0;
  for (let x = Math.ceil(left + shy); x < right - shy; x++) most = Math.max(most, line[x]!);
  return most;
}
