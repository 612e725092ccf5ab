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
  const pair = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  const columns = new Float64Array((size + 2) * size);
  // Samples have no imaginary part: two rows are transformed as one, and half of the columns tell
  // the other half.
  for (let y = 0; y < size; y += 2) {
    for (let x = 0, at = y * size; x < size; x++, at++) {
      pair[2 * x] = (samples[at]! - mean) * bell[x]! * bell[y]!;
      pair[2 * x + 1] = (samples[at + size]! - mean) * bell[x]! * bell[y + 1]!;
    }
    transform.transform(spectrum, pair);
    for (let x = 0; x <= size / 2; x++) {
      const mirrored = x === 0 ? 0 : 2 * (size - x);
      const a = spectrum[2 * x]!;
      const b = spectrum[2 * x + 1]!;
      const c = spectrum[mirrored]!;
      const d = spectrum[mirrored + 1]!;
      // Turned on the way, so that columns become rows.
      const to = 2 * (x * size + y);
      columns[to] = (a + c) / 2;
      columns[to + 1] = (b - d) / 2;
      columns[to + 2] = (b + d) / 2;
      columns[to + 3] = (c - a) / 2;
    }
  }
  const power = new Float64Array(size * size);
  for (let x = 0; x <= size / 2; x++) {
    transform.transform(spectrum, columns.subarray(2 * x * size, 2 * (x + 1) * size));
    for (let y = 0; y < size; y++) {
      const here = spectrum[2 * y]! ** 2 + spectrum[2 * y + 1]! ** 2;
      power[y * size + x] = here;
      power[(y === 0 ? 0 : size - y) * size + (x === 0 ? 0 : size - x)] = here;
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
