import { expect, test } from 'vitest';
import { axisWeights } from '../../../packages/core/src/raster/axis-weights.js';

function firstPixel(weights: { taps: number; weights: Float64Array }): number[] {
  return [...weights.weights.subarray(0, weights.taps)].filter((weight) => weight !== 0);
}

test('at 0.372 dots a pixel the first dot is made of 0.372, 0.372 and 0.256 of three pixels', () => {
  // By hand: a dot covers 1 / 0.372 = 2.688172 pixels, so 1 / 2.688172 of each whole one.
  const got = firstPixel(
    axisWeights({ length: 9, start: 0, extent: 1 / 0.372, size: 1, wrap: false, kernel: 'area' }),
  );
  expect(got).toHaveLength(3);
  [0.372, 0.372, 0.256].forEach((weight, i) => {
    expect(got[i]).toBeCloseTo(weight, 9);
  });
});

test('half-way between two pixels a Lanczos kernel weighs six, normalised', () => {
  // Duchon 1979: sinc x sinc(x/3) at 0.5, 1.5, 2.5 is 0.60792710, -0.13509491, 0.02431708; the six
  // sum to 0.99429855.
  const got = firstPixel(
    axisWeights({ length: 9, start: 4.5, extent: 1, size: 1, wrap: false, kernel: 'lanczos' }),
  );
  const side = [0.61141304, -0.13586957, 0.02445652];
  const expected = [...side.toReversed(), ...side];
  expect(got).toHaveLength(6);
  expected.forEach((weight, i) => {
    expect(got[i]).toBeCloseTo(weight, 8);
  });
});

test('going down to half, the kernel widens to twelve pixels', () => {
  // Duchon 1979, at 0.25, 0.75 ... 2.75; these are one side, and sum to a half.
  const side = [0.44638539, 0.13550528, -0.06663732, -0.03399863, 0.01505614, 0.00368914];
  const got = firstPixel(
    axisWeights({ length: 20, start: 9, extent: 2, size: 1, wrap: false, kernel: 'lanczos' }),
  );
  const expected = [...side.toReversed(), ...side];
  expect(got).toHaveLength(12);
  expected.forEach((weight, i) => {
    expect(got[i]).toBeCloseTo(weight, 8);
  });
});
