import FFT from 'fft.js';
import { outOfRange } from '../errors/out-of-range.js';

/**
 * Find how much of each frequency a square of samples holds, under a window that lets its borders
 * fade, so that they are no lines of their own.
 *
 * @param samples - `size * size`, row by row.
 * @param size - A power of two, 4 or more.
 * @returns `size * size` powers, row by row: frequency `k` at index `k`, `-k` at `size - k`.
 * @throws RangeError when the size is no power of two, or the samples are no such square.
 * @see F. J. Harris, On the use of windows for harmonic analysis, Proceedings of the IEEE 66 (1978)
 */
export function powerSpectrum(samples: Float32Array, size: number): Float64Array {
  if (!(size >= 4 && Number.isInteger(Math.log2(size)) && samples.length === size * size)) {
    throw outOfRange('a square of a power of two', 'samples', `${samples.length} of ${size}`);
  }
  const bell = windowOf(size);
  const mean = windowedMean(samples, bell);
  const transform = new FFT(size);
  const row = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  const half = new Float64Array(2 * size * size);
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      row[2 * x] = (samples[y * size + x]! - mean) * bell[x]! * bell[y]!;
    }
    transform.transform(spectrum, row);
    // Turned on the way, so that columns become rows.
    for (let x = 0; x < size; x++) {
      half[2 * (x * size + y)] = spectrum[2 * x]!;
      half[2 * (x * size + y) + 1] = spectrum[2 * x + 1]!;
    }
  }
  const power = new Float64Array(size * size);
  for (let x = 0; x < size; x++) {
    transform.transform(spectrum, half.subarray(2 * x * size, 2 * (x + 1) * size));
    for (let y = 0; y < size; y++) {
      power[y * size + x] = spectrum[2 * y]! ** 2 + spectrum[2 * y + 1]! ** 2;
    }
  }
  return power;
}

function windowOf(size: number): Float64Array {
  return Float64Array.from(
    { length: size },
    (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / size),
  );
}

function windowedMean(samples: Float32Array, bell: Float64Array): number {
  const size = bell.length;
  let sum = 0;
  let weights = 0;
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const weight = bell[x]! * bell[y]!;
      sum += weight * samples[y * size + x]!;
      weights += weight;
    }
  }
  return sum / weights;
}
