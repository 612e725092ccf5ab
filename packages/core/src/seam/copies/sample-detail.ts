import type { Raster } from '../../raster/raster.js';
import { sampleLines } from '../inspect/sample-lines.js';

/** The fine detail along lines of a picture. */
export interface Detail {
  /** Lines. */
  readonly count: number;
  /** Samples a line. */
  readonly length: number;
  /** Pixels that one sample stands for. */
  readonly step: number;
  /** `count * length` numbers, a line after another, about 0. */
  readonly samples: Float32Array;
}

const mostLines = 96;
/** Samples a line, at most twice this. */
const enough = 640;
/** Samples either way over which lightness is levelled. */
const reach = 6;

/**
 * Take lines out of a picture, and of them what is fine and not the same all across: grain, stains
 * and joints, without slow light, and without the profile that corrugated sheet and boards have on
 * every line.
 *
 * @param raster - In linear light.
 * @param axis - `x` for rows, `y` for columns.
 * @returns Detail, without the samples past the last whole step.
 */
export function sampleDetail(raster: Raster, axis: 'x' | 'y'): Detail {
  const lines = sampleLines(raster, axis, mostLines);
  const { count } = lines;
  const step = Math.max(1, Math.floor(lines.length / enough));
  const length = Math.floor(lines.length / step);
  const samples = new Float32Array(count * length);
  const line = new Float64Array(length);
  const sums = new Float64Array(length + 1);
  for (let k = 0; k < count; k++) {
    for (let i = 0, from = k * lines.length; i < length; i++, from += step) {
      let sum = 0;
      for (let j = from; j < from + step; j++) sum += lines.samples[j]!;
      line[i] = sum / step;
      sums[i + 1] = sums[i]! + line[i]!;
    }
    const start = k * length;
    for (let i = 0; i < length; i++) {
      const left = Math.max(0, i - reach);
      const right = Math.min(length, i + reach + 1);
      const near = line[Math.max(0, i - 1)]! + 2 * line[i]! + line[Math.min(length - 1, i + 1)]!;
      samples[start + i] = near / 4 - (sums[right]! - sums[left]!) / (right - left);
    }
  }
  takeProfile(samples, count, length);
  return { count, length, step, samples };
}

function takeProfile(samples: Float32Array, count: number, length: number): void {
  for (let i = 0; i < length; i++) {
    let sum = 0;
    for (let at = i; at < samples.length; at += length) sum += samples[at]!;
    const mean = sum / count;
    for (let at = i; at < samples.length; at += length) samples[at] = samples[at]! - mean;
  }
}
