import { createRaster, type Raster } from '../raster/raster.js';

/** How a picture is to end. */
export interface LevelOptions {
  /** Pixels after which it repeats. */
  readonly period: number;
  /** One bond repeat, where there is one: strips of whole repeats hold as much mortar. */
  readonly repeat: number | null;
  /** Whether the picture's top already meets its bottom. */
  readonly closed: boolean;
}

/**
 * Take out the drift of light from left to right that would show where a picture meets itself:
 * its right end is made, by and large, as light as its left. Colour by colour, by a factor that
 * changes slowly, so brick stays apart from brick.
 *
 * @param raster - In linear light, left as it is.
 * @param options - Period and repeat.
 * @returns A raster of its own.
 */
export function levelEnds(raster: Raster, options: LevelOptions): Raster {
  const { width, height } = raster;
  const { period, repeat, closed } = options;
  const unit = repeat ?? width / 8;
  const strip = Math.min(width / 2, Math.max(1, Math.round(width / 6 / unit)) * unit);
  const whole = Math.max(1, Math.round(strip));
  const out = createRaster(width, height);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const to = out.planes[channel]!;
    const left = stripMeans(from, width, 0, whole);
    const right = stripMeans(from, width, width - whole, whole);
    // Log of how much lighter a row is one period further right.
    const rise = new Float64Array(height);
    const far = period / Math.max(1, width - whole);
    for (let y = 0; y < height; y++) {
      rise[y] = far * Math.log((right[y]! + 1e-3) / (left[y]! + 1e-3));
    }
    const slow = fitSlow(rise, closed);
    for (let y = 0; y < height; y++) {
      const row = y * width;
      // A product instead of a power per sample.
      const step = Math.exp(-slow[y]! / period);
      let factor = Math.exp((slow[y]! / period) * (width / 2));
      for (let x = 0; x < width; x++) {
        to[row + x] = from[row + x]! * factor;
        factor *= step;
      }
    }
  }
  return out;
}

function stripMeans(
  plane: Float32Array,
  width: number,
  start: number,
  strip: number,
): Float64Array {
  const height = plane.length / width;
  const means = new Float64Array(height);
  for (let y = 0; y < height; y++) {
    let sum = 0;
    for (let at = y * width + start, end = at + strip; at < end; at++) sum += plane[at]!;
    means[y] = sum / strip;
  }
  return means;
}

// The slow part of a column of numbers: its mean, and two orthogonal curves that vary slowest.
function fitSlow(values: Float64Array, closed: boolean): Float64Array {
  const size = values.length;
  const slow = new Float64Array(size);
  const curves: readonly ((t: number) => number)[] = closed
    ? [() => 1, (t) => Math.cos(2 * Math.PI * t), (t) => Math.sin(2 * Math.PI * t)]
    : [() => 1, (t) => Math.cos(Math.PI * t), (t) => Math.cos(2 * Math.PI * t)];
  for (const curve of curves) {
    let dot = 0;
    let norm = 0;
    for (let i = 0; i < size; i++) {
      const value = curve((i + 0.5) / size);
      dot += value * values[i]!;
      norm += value * value;
    }
    for (let i = 0; i < size; i++) slow[i]! += (dot / norm) * curve((i + 0.5) / size);
  }
  return slow;
}
