import type { Face } from '../../catalogue/bonds/bond.js';
import type { Raster } from '../../raster/raster.js';
import type { Cell } from './cell.js';
import type { Phase } from './find-phase.js';
import { mortarAround } from './mortar-around.js';
import { bedAt, type Beds, centreOf } from './place-beds.js';
import type { PerpendLines } from './see-perpends.js';
import type { Mortar } from '../mend/see-mortar.js';
import { isSound, seeSound } from './see-sound.js';

/** A whole brick of a photo, with half of every joint around it. */
export interface Brick extends Cell {
  /** Which photo it is of. */
  readonly source: number;
  /** Which face it shows. */
  readonly face: Face;
  /** Course and place along it, counted over the photo: neighbours differ by one. */
  readonly course: number;
  /** Place along its course. */
  readonly place: number;
  /** How far its left and right perpend lie from where the bond has them, in pixels. */
  readonly strays: readonly [number, number];
  /** How like mortar its own middle is, at the worst column: above 0.5 it is perhaps two bricks. */
  readonly split: number;
  /** How like a joint the fainter of its two perpends is, 0 to 1. */
  readonly ends: number;
  /** Colour of its mortar and its face, as {@link mortarAround} tells. */
  readonly mortar: Float64Array;
}

/** A photo of which the bond is known. */
export interface BondedSource {
  /** Which photo. */
  readonly source: number;
  /** In linear light. */
  readonly raster: Raster;
  /** What in it is mortar. */
  readonly mortar: Mortar;
  /** Its bed joints. */
  readonly beds: Beds;
  /** Its upright joints. */
  readonly perpends: PerpendLines;
  /** How its bond lies. */
  readonly phase: Phase;
  /** Bond repeat along the course, in pixels. */
  readonly repeat: number;
  /** Pixels past which a brick that begins there is the copy of one before. */
  readonly end: { readonly x: number; readonly y: number };
}

// How far a perpend may lie from where the bond has it, as a share of its brick's length.
const reach = 0.16;
// How far past the photo's edge the middle of a joint may lie, in joints.
const inJoint = 0.15;

/**
 * List the whole bricks of a photo, each by its own joints.
 *
 * @param from - The photo.
 * @param joint - A joint's width in pixels.
 * @returns From left to right, course by course.
 */
export function listBricks(from: BondedSource, joint: number): Brick[] {
  const { phase, beds, end } = from;
  // Of the joint around a brick, its nearer part must be there.
  const margin = -inJoint * joint;
  const sound = seeSound(from.raster, from.mortar, beds);
  const bricks: Brick[] = [];
  for (let course = 0; course + 1 < beds.count; course++) {
    const laid = phase.pattern[(course + phase.row) % phase.pattern.length]!;
    if (bedAt(beds, course, 0) >= end.y) continue;
    const own = bricksOf(from, { course, laid, margin });
    bricks.push(...own.filter((brick) => isSound(sound, course, brick)));
  }
  return bricks;
}

interface LaidCourse {
  readonly course: number;
  readonly laid: Phase['pattern'][number];
  readonly margin: number;
}

function bricksOf(from: BondedSource, { course, laid, margin }: LaidCourse): Brick[] {
  const { repeat, phase, raster, end, perpends, beds } = from;
  const line = perpends.courses[course]!;
  const bricks: Brick[] = [];
  const least = (brick: { length: number }): number => reach * brick.length * repeat;
  for (let times = -1; times * repeat + phase.x < end.x; times++) {
    for (const [i, brick] of laid.entries()) {
      const next = laid[(i + 1) % laid.length]!;
      const start = phase.x + (times + brick.at) * repeat;
      const stop = start + brick.length * repeat;
      const within = Math.min(least(brick), least(next));
      const left = centreOf(line, start, within);
      const right = centreOf(line, stop, within);
      const middle = (left + right) / 2;
      const top = bedAt(beds, course, middle);
      const bottom = bedAt(beds, course + 1, middle);
      const whole =
        left >= margin &&
        right <= raster.width - margin &&
        top >= margin &&
        bottom <= raster.height - margin;
      if (!whole || start >= end.x) continue;
      const cell = { left, right, top, bottom };
      bricks.push({
        ...cell,
        source: from.source,
        face: brick.face,
        course,
        place: times * laid.length + i,
        strays: [left - start, right - stop],
        split: splitOf(line, cell),
        ends: Math.min(peakAt(line, left), peakAt(line, right)),
        mortar: mortarAround(raster, cell, from.mortar.joint),
      });
    }
  }
  return bricks;
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
