import FFT from 'fft.js';
import { outOfRange } from '../errors/out-of-range.js';

/** Sums of products of samples of a line, over all lines. */
export interface SelfProducts {
  /** Of any two samples so far apart, from 0. */
  readonly apart: Float64Array;
  /** Of any two whose places add up to so much, from 0, both ways round. */
  readonly together: Float64Array;
}

/**
 * Multiply the samples of lines with one another, at every shift and turned round about every place.
 *
 * @param samples - A line after another.
 * @param length - Samples a line, 1 or more.
 * @returns Sums of the products.
 * @throws RangeError when the samples are no whole lines.
 * @see J. W. Cooley, J. W. Tukey, An algorithm for the machine calculation of complex Fourier series,
 *   Mathematics of Computation 19 (1965)
 */
export function multiplyBySelf(samples: Float32Array, length: number): SelfProducts {
  if (!(length >= 1 && samples.length % length === 0)) {
    throw outOfRange('whole lines of 1 sample or more', 'length', length);
  }
  // Twice as long, so that nothing comes round again.
  const size = 2 ** Math.ceil(Math.log2(2 * length + 2));
  const transform = new FFT(size);
  const line = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  const power = new Float64Array(2 * size);
  const square = new Float64Array(2 * size);
  for (let from = 0; from < samples.length; from += length) {
    for (let i = 0; i < length; i++) line[2 * i] = samples[from + i]!;
    transform.transform(spectrum, line);
    for (let at = 0; at < spectrum.length; at += 2) {
      const [real, other] = [spectrum[at]!, spectrum[at + 1]!];
      power[at]! += real * real + other * other;
      square[at]! += real * real - other * other;
      square[at + 1]! += 2 * real * other;
    }
  }
  const back = (of: Float64Array, count: number): Float64Array => {
    transform.inverseTransform(spectrum, of);
    return Float64Array.from({ length: count }, (_, i) => spectrum[2 * i]!);
  };
  return { apart: back(power, length), together: back(square, 2 * length - 1) };
}
