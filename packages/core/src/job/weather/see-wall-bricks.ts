import type { SeenBricks } from '../../finish/weather/lay-bricks.js';
import { createRaster, type Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { transposeRaster } from '../../raster/transpose-raster.js';
import { placeBeds } from '../../seam/extend/place-beds.js';
import { cellsOf } from '../../seam/mend/list-cells.js';
import { seeMortar } from '../../seam/mend/see-mortar.js';
import type { Joints } from '../../seam/mend/see-joints.js';

/** Where a wall's courses lie, and whether the picture of it meets itself at its ends. */
export interface WallLattice extends Joints {
  /** Along each axis, so that a brick may lie over them. */
  readonly meets: PerAxis<boolean>;
}

/**
 * See the bricks and joints of a wall.
 *
 * @param picture - Level, in linear light.
 * @param lattice - Where its courses lie in it.
 * @returns Them, in its own pixels.
 */
export function seeWallBricks(picture: Raster, lattice: WallLattice): SeenBricks {
  const { axis, course, offset, meets } = lattice;
  const level = axis === 'x' ? transposeRaster(picture) : picture;
  // Where nobody knows how long bricks are, three courses: a stretcher.
  const brick = lattice.brick ?? 3 * course;
  const [along, down] = axis === 'y' ? [meets.x, meets.y] : [meets.y, meets.x];
  const margin = {
    x: along ? Math.min(level.width, Math.ceil(1.3 * brick)) : 0,
    y: down ? Math.min(level.height, Math.ceil(1.3 * course)) : 0,
  };
  const wide = along || down ? goOn(level, margin) : level;
  const courses = { course, offset: offset + margin.y };
  const mortar = seeMortar(wide, courses);
  const { cells, joint } = cellsOf(
    { mortar, beds: placeBeds(mortar, courses) },
    { brick, bond: lattice.bond ?? null },
  );
  const { width, height } = level;
  const boxes = cells.flatMap(({ left, top, right, bottom }) => {
    const [x, y] = [(left + right) / 2 - margin.x, (top + bottom) / 2 - margin.y];
    // Of one that is seen at both ends, once.
    if (x < 0 || y < 0 || x >= width || y >= height) return [];
    const box = {
      left: left - margin.x,
      top: top - margin.y,
      right: right - margin.x,
      bottom: bottom - margin.y,
    };
    return [
      axis === 'y' ? box : { left: box.top, top: box.left, right: box.bottom, bottom: box.right },
    ];
  });
  const own =
    wide === level
      ? mortar.likeness
      : inside(mortar.likeness, { wide: wide.width, margin, width, height });
  return { likeness: axis === 'y' ? own : turned(own, width, height), boxes, joint };
}

interface Margin {
  readonly x: number;
  readonly y: number;
}

// What goes on round the ends of a picture that meets itself.
function goOn({ width, height, planes }: Raster, margin: Margin): Raster {
  const out = createRaster(width + 2 * margin.x, height + 2 * margin.y);
  for (const [channel, plane] of planes.entries()) {
    const to = out.planes[channel]!;
    for (let y = 0; y < out.height; y++) {
      const row = plane.subarray(((y - margin.y + height) % height) * width).subarray(0, width);
      const at = y * out.width;
      to.set(row.subarray(width - margin.x), at);
      to.set(row, at + margin.x);
      to.set(row.subarray(0, margin.x), at + margin.x + width);
    }
  }
  return out;
}

interface InsideOptions {
  readonly wide: number;
  readonly margin: Margin;
  readonly width: number;
  readonly height: number;
}

function inside(plane: Float32Array, { wide, margin, width, height }: InsideOptions): Float32Array {
  const out = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const start = (y + margin.y) * wide + margin.x;
    out.set(plane.subarray(start, start + width), y * width);
  }
  return out;
}

function turned(plane: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(plane.length);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++) out[x * height + y] = plane[at++]!;
  }
  return out;
}
