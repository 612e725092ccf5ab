import { expect, test } from 'vitest';
import { multiplyBySelf } from '../../../packages/core/src/numeric/multiply-by-self.js';

const rounded = (values: Float64Array): number[] =>
  Array.from(values, (v) => Math.round(v * 1e9) / 1e9);

test('the products of samples are summed by how far apart they lie, and by where their middle is', () => {
  // By hand, of 1 2 3: apart 1 + 4 + 9, 2 + 6, 3; together, as (1 + 2x + 3x^2)^2 is multiplied out.
  const { apart, together } = multiplyBySelf(Float32Array.of(1, 2, 3), 3);
  expect(rounded(apart)).toEqual([14, 8, 3]);
  expect(rounded(together)).toEqual([1, 4, 10, 12, 9]);
});

test('the sums of several lines are added up', () => {
  // 1 2 3 as above, and 1 0 -1: apart 2, 0, -1; together 1, 0, -2, 0, 1.
  const { apart, together } = multiplyBySelf(Float32Array.of(1, 2, 3, 1, 0, -1), 3);
  expect(rounded(apart)).toEqual([16, 8, 2]);
  expect(rounded(together)).toEqual([2, 4, 8, 12, 10]);
});
