import type { FoundJoints } from '../../surface/found-joints.js';
import { findLeftOut } from './find-left-out.js';
import { type FoundBond, placePerpends } from './place-perpends.js';
import type { PlacedJoints } from '../joints/place-joints.js';
import type { SeenWall } from '../seen-wall.js';
import type { Size } from '../../units/parse-size.js';

/** What else is known of the wall. */
export interface WallKnown {
  /** Its bond, or null where none was found. */
  readonly bond: FoundBond | null;
  /** How large the photo is. */
  readonly photo: Size<number>;
}

/**
 * List all that was found of a wall, for a picture of it.
 *
 * @param seen - The wall.
 * @param placed - Its bed joints, at the middle of their mortar.
 * @param known - What else is known of it, or null for its bed joints alone.
 * @returns The same in pixels of the level picture.
 */
export function listJoints(
  seen: SeenWall,
  placed: PlacedJoints,
  known: WallKnown | null,
): FoundJoints {
  const { step, left, top, rectification } = seen;
  const along = (y: number): number => (y + top) * step;
  const across = (x: number): number => (x + left) * step;
  const bond = known?.bond ?? null;
  const perpends = bond === null ? [] : placePerpends({ ...seen, placed }, bond);
  const leftOut = known === null ? [] : findLeftOut(seen, known.photo);
  return {
    axis: 'y',
    rectification,
    beds: placed.joints.map((y, k) => ({
      at: along(y),
      shows: Math.min(1, placed.wins[k]!),
    })),
    perpends: perpends.map(({ x, row }) => ({
      at: across(x),
      from: along(placed.joints[row]!),
      to: along(placed.joints[row + 1]!),
    })),
    leftOut: leftOut.map(({ x, y, width, height }) => ({
      x: across(x),
      y: along(y),
      width: width * step,
      height: height * step,
    })),
  };
}
