import type { Face } from '../../catalogue/bonds/bond.js';
import type { Raster } from '../../raster/raster.js';
import type { Phase } from './find-phase.js';
import { bedAt, type Beds, centreOf } from './place-beds.js';
import type { PerpendLines } from './see-perpends.js';
import type { Mortar } from './see-mortar.js';

/** A rectangle whose sides are the middles of joints, in pixels of a picture. */
export interface Cell {
  /** Left. */
  readonly left: number;
  /** Top. */
  readonly top: number;
  /** Right. */
  readonly right: number;
  /** Bottom. */
  readonly bottom: number;
}

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
  /**
   * Colour of its mortar, in square roots of light: left, right, then above and below, left half and
   * right half of each; red, green, blue.
   */
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
  const bricks: Brick[] = [];
  for (let course = 0; course + 1 < beds.count; course++) {
    const laid = phase.pattern[(course + phase.row) % phase.pattern.length]!;
    if (bedAt(beds, course, 0) >= end.y) continue;
    bricks.push(...bricksOf(from, { course, laid, margin }));
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
        mortar: mortarOf(raster, cell, from.mortar.joint),
      });
    }
  }
  return bricks;
}

function splitOf(line: Float64Array, { left, right }: Cell): number {
  const shy = 0.2 * (right - left);
  let most = 0;
  for (let x = Math.ceil(left + shy); x < right - shy; x++) most = Math.max(most, line[x]!);
  return most;
}

function mortarOf(raster: Raster, cell: Cell, joint: number): Float64Array {
  const { left, right, top, bottom } = cell;
  const half = Math.max(0.5, 0.3 * joint);
  const middle = (left + right) / 2;
  const upright = { top: top + joint, bottom: bottom - joint };
  const areas: readonly Cell[] = [
    { left: left - half, right: left + half, ...upright },
    { left: right - half, right: right + half, ...upright },
    { left, right: middle, top: top - half, bottom: top + half },
    { left: middle, right, top: top - half, bottom: top + half },
    { left, right: middle, top: bottom - half, bottom: bottom + half },
    { left: middle, right, top: bottom - half, bottom: bottom + half },
  ];
  const out = new Float64Array(3 * areas.length);
  for (const [i, area] of areas.entries()) {
    for (let channel = 0; channel < 3; channel++) {
      out[3 * i + channel] = meanIn(raster.planes[channel]!, raster, area);
    }
  }
  return out;
}

function meanIn(plane: Float32Array, { width, height }: Raster, area: Cell): number {
  const x0 = Math.min(width - 1, Math.max(0, Math.round(area.left)));
  const x1 = Math.min(width, Math.max(x0 + 1, Math.round(area.right)));
  const y0 = Math.min(height - 1, Math.max(0, Math.round(area.top)));
  const y1 = Math.min(height, Math.max(y0 + 1, Math.round(area.bottom)));
  let sum = 0;
  for (let y = y0; y < y1; y++) {
    for (let i = y * width + x0; i < y * width + x1; i++) sum += Math.sqrt(Math.max(0, plane[i]!));
  }
  return sum / ((x1 - x0) * (y1 - y0));
}
