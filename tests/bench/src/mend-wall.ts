import { evenLight, mendTile, type Raster, type Tile } from '@gaugerod/core';
import type { WallTruth } from '@gaugerod/fixtures';

/** A wall in even light, and the tile made of it. */
export interface MendedWall {
  readonly even: Raster;
  readonly tile: Tile;
  readonly truth: WallTruth;
}

/**
 * Mend a wall by its true joints: here seams are judged, not measuring.
 *
 * @param raster - As drawn.
 * @param truth - Of it.
 * @returns What became of it, or null where it holds less than a repeat.
 */
export function mendWall(raster: Raster, truth: WallTruth): MendedWall | null {
  const joints = { axis: 'y', course: truth.coursePx, offset: truth.courseOffset } as const;
  // As the job does, light goes first.
  const { raster: even } = evenLight(raster, {
    along: { x: true, y: true },
    unit: { x: truth.brickPx, y: truth.coursePx },
    joints,
  });
  const made = mendTile(even, {
    repeat: truth.repeat,
    joints: { ...joints, brick: truth.brickPx },
  });
  return made.ok ? { even, tile: made.value, truth } : null;
}
