import { cropRaster } from '../raster/crop-raster.js';
import type { Raster } from '../raster/raster.js';
import { transposeRaster } from '../raster/transpose-raster.js';
import type { CourseAxis } from '../surface/measurement.js';
import { seeMortar } from './extend/see-mortar.js';
import type { OverlapWindow } from './overlap.js';

/** Where the courses of a picture lie, in its pixels. */
export interface Joints {
  /** Which way courses are counted. */
  readonly axis: CourseAxis;
  /** Bed joint to bed joint. */
  readonly course: number;
  /** Where along `axis` one bed joint lies. */
  readonly offset: number;
  /** Across `axis`: one brick with its joint, or null where nobody knows. */
  readonly brick: number | null;
}

// A cut runs as well beside the middle of a joint: grain in the mortar is no reason to leave it.
const reach = 1;

/**
 * See where two windows on one picture both show mortar.
 *
 * @param raster - Level, in linear light.
 * @param window - Where the two lie.
 * @param joints - Of the picture.
 * @returns 0 brick to 1 mortar in both, laid out as the windows are: the mended axis along the rows.
 */
export function seeJoints(raster: Raster, window: OverlapWindow, joints: Joints): Float32Array {
  const ending = likenessIn(raster, { ...window, first: window.start + window.period }, joints);
  const beginning = likenessIn(raster, { ...window, first: window.start }, joints);
  const { overlap, margin } = window;
  const height = ending.length / (overlap + 2 * margin);
  const out = new Float32Array(ending.length);
  for (let i = 0; i < out.length; i++) {
    out[i] = Math.min(1, Math.max(0, Math.min(ending[i]!, beginning[i]!)));
  }
  return smooth(out, overlap + 2 * margin, height);
}

interface Strip extends OverlapWindow {
  readonly first: number;
}

// Past the picture's edge, its edge is held.
function likenessIn(raster: Raster, strip: Strip, joints: Joints): Float32Array {
  const { axis, overlap, margin } = strip;
  const size = overlap + 2 * margin;
  const length = axis === 'x' ? raster.width : raster.height;
  const from = Math.max(0, strip.first - margin);
  const to = Math.min(length, strip.first - margin + size);
  const part = cropRaster(
    raster,
    axis === 'x'
      ? { x: from, y: 0, width: to - from, height: raster.height }
      : { x: 0, y: from, width: raster.width, height: to - from },
  );
  const upright = joints.axis === 'x';
  const offset = joints.axis === axis ? joints.offset - from : joints.offset;
  const level = upright ? transposeRaster(part) : part;
  const { likeness } = seeMortar(level, { course: joints.course, offset });
  // The step to the next sample along the mended axis, and across it.
  const [along, across] = joints.axis === axis ? [level.width, 1] : [1, level.width];
  const height = (part.width * part.height) / (to - from);
  const out = new Float32Array(size * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < size; x++) {
      const held = Math.min(to - 1, Math.max(from, strip.first - margin + x)) - from;
      out[y * size + x] = likeness[held * along + y * across]!;
    }
  }
  return out;
}

// Mean of the cells around each.
function smooth(values: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(values.length);
  const rows = new Float32Array(values.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let u = -reach; u <= reach; u++) {
        sum += values[y * width + Math.min(width - 1, Math.max(0, x + u))]!;
      }
      rows[y * width + x] = sum;
    }
  }
  const share = 1 / (2 * reach + 1) ** 2;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let v = -reach; v <= reach; v++) {
        sum += rows[Math.min(height - 1, Math.max(0, y + v)) * width + x]!;
      }
      out[y * width + x] = sum * share;
    }
  }
  return out;
}
