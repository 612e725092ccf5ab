import type { PerAxis } from '../../surface/measurement.js';
import type { LaidAlong } from '../../raster/list-again.js';
import { noiseAt } from './noise.js';
import { listOctaves, type NoiseGround } from './octaves.js';

/** A picture that is laid again and again on a wall. */
export interface RepeatedPicture {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** How it is laid. */
  readonly copies: PerAxis<LaidAlong>;
  /** Millimetres of the wall to a pixel. */
  readonly mmPerDot: PerAxis<number>;
  /** The dot of what repeats that lies on the wall's datum. */
  readonly origin: PerAxis<number>;
}

// Most take about as much as their neighbours; a few are burnt so hard that little clings to them.
const spread = 0.24;

/** Where the middles of a picture's bricks lie, by their numbers, in whole pixels: number 0 is no brick. */
export interface BrickMiddles {
  /** From its left. */
  readonly x: Int32Array;
  /** From its top. */
  readonly y: Int32Array;
}

/** Fills in how much of the weather each brick takes of a copy that begins at a dot of what repeats. */
export type BrickShares = (startX: number, startY: number, out: Float32Array) => void;

/**
 * Say how much of the weather each brick takes: no two are alike, and one that lies on the wall again and again,
 * for the picture repeats, is another one each time.
 *
 * @param bricks - Of the picture.
 * @param picture - It, and how it lies on the wall.
 * @param ground - Of the wall.
 * @returns What gives each brick's share of what is laid on it, up to 1; 1 for what is no brick.
 */
export function varyBricks(
  bricks: BrickMiddles,
  picture: RepeatedPicture,
  ground: NoiseGround,
): BrickShares {
  const { mmPerDot, origin } = picture;
  // A step of half a brick or a course leads to another cell, and a hair's breadth to nearly the same value.
  const octaves = listOctaves(
    { ...ground, finest: 1 },
    { id: 6, cell: 84, count: 2, gain: 0.9, tall: 0.75 },
  );
  return (startX, startY, out) => {
    out[0] = 1;
    for (let i = 1; i < bricks.x.length; i++) {
      const x = (startX + bricks.x[i]! - origin.x + 0.5) * mmPerDot.x;
      const y = (startY + bricks.y[i]! - origin.y + 0.5) * mmPerDot.y;
      let chance = 0;
      for (const octave of octaves) chance += noiseAt(octave, x, y);
      out[i] = Math.min(1, Math.max(0.25, 0.86 + spread * chance));
    }
  };
}
