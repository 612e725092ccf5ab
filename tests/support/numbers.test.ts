import { expect, test } from 'vitest';

test.each([
  [Float32Array.of(1, NaN, -0), Float32Array.of(1, NaN, -0)],
  [{ planes: [Float64Array.of(2)] }, { planes: [Float64Array.of(2)] }],
  [BigInt64Array.of(3n), BigInt64Array.of(3n)],
])('%o and %o are equal', (a, b) => {
  expect(a).toEqual(b);
  expect(a).toStrictEqual(b);
  expect([a]).toContainEqual(b);
});

test.each([
  [Float32Array.of(0), Float32Array.of(-0)],
  [Float32Array.of(1, 2), Float32Array.of(1, 3)],
  [Float32Array.of(1), Float32Array.of(1, 2)],
  [Float32Array.of(1, 2), Float32Array.of(1)],
  [Float32Array.of(1), Float64Array.of(1)],
  [Float32Array.of(1), [1]],
  [{ planes: [Float64Array.of(2)] }, { planes: [Float64Array.of(2.5)] }],
  [BigInt64Array.of(3n), BigInt64Array.of(4n)],
])('%o and %o are not', (a, b) => {
  expect(a).not.toEqual(b);
  expect(a).not.toStrictEqual(b);
  expect([a]).not.toContainEqual(b);
});
