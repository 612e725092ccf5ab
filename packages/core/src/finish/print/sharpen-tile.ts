import { encodeQuickly, fromSrgb } from '../../colour/srgb.js';
import { wrapInto } from '../../numeric/wrap-into.js';
import type { Raster } from '../../raster/raster.js';

/** How a tile is sharpened. */
export interface SharpenOptions {
  /** How much of what is finer than the radius is laid on again: 1 doubles it. */
  readonly amount: number;
  /** Deviation of the blur that tells what is fine, px. */
  readonly radius: number;
}

/**
 * Sharpen a picture that repeats: what a blur takes from its luma is laid on again, so that colours do not change, and
 * across its edges, so that it goes on repeating.
 *
 * @param tile - In linear light; left as it is.
 * @param options - How much, and how fine.
 * @returns A raster of its own.
 */
export function sharpenTile(tile: Raster, options: SharpenOptions): Raster {
  const { amount, radius } = options;
  const { width, height, planes } = tile;
  const levels = planes.map(encodeQuickly);
  const [red, green, blue] = levels as [Float32Array, Float32Array, Float32Array];
  const luma = red.map((level, i) => 0.2126 * level + 0.7152 * green[i]! + 0.0722 * blue[i]!);
  const taps = gaussian(radius);
  const across = blur(luma, taps, { length: width, step: 1, lines: height, next: width });
  const soft = blur(across, taps, { length: height, step: width, lines: width, next: 1 });
  const sharpen = (plane: Float32Array): Float32Array =>
    plane.map((level, i) => {
      const sharper = level + amount * (luma[i]! - soft[i]!);
      return fromSrgb(Math.min(1, Math.max(0, sharper)));
    });
  return { width, height, planes: [sharpen(red), sharpen(green), sharpen(blue)] };
}

function gaussian(radius: number): Float64Array {
  const reach = Math.ceil(3 * radius);
  const taps = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * radius * radius)),
  );
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
}

interface Lines {
  readonly length: number;
  readonly step: number;
  readonly lines: number;
  readonly next: number;
}

function blur(
  plane: Float32Array,
  taps: Float64Array,
  { length, step, lines, next }: Lines,
): Float32Array {
  const out = new Float32Array(plane.length);
  const reach = taps.length >> 1;
  // A line with its other end before it and its beginning behind it.
  const line = new Float64Array(length + 2 * reach);
  for (let which = 0; which < lines; which++) {
    const start = which * next;
    for (let i = 0; i < line.length; i++) {
      line[i] = plane[start + wrapInto(i - reach, length) * step]!;
    }
    for (let i = 0; i < length; i++) {
      let sum = 0;
      for (let tap = 0; tap < taps.length; tap++) sum += taps[tap]! * line[i + tap]!;
      out[start + i * step] = sum;
    }
  }
  return out;
}
