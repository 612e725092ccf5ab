import { expect, test } from 'vitest';
import { joinOverlap } from '../../../packages/core/src/seam/join-overlap.js';

test('a fade keeps contrast', () => {
  // Heitz and Neyret 2018, High-performance by-example noise using a histogram-preserving blending
  // operator: (sum w x - mean) / sqrt(sum w^2) + mean. For 90 and 150 about 128 at half and half that
  // is 116.686292, where plain averaging gives 120.
  const mean = 128;
  // Off the mean by 38 and by 22, in all four combinations: strangers to one another.
  const ending = [-38, -38, 38, 38].flatMap((off) => Array<number>(3).fill(mean + off));
  const beginning = [22, -22, 22, -22].flatMap((off) => Array<number>(3).fill(mean + off));
  const window = {
    width: 3,
    height: 4,
    // One column of overlap, half and half, between the two windows as they are.
    margin: 1,
    ending: [Float32Array.from(ending)],
    beginning: [Float32Array.from(beginning)],
  };
  const border = new Int32Array(4).fill(1);
  const [joined] = joinOverlap(window, { method: 'blend', border, closed: true });
  expect(joined?.[0]).toBeCloseTo(90, 4);
  expect(joined?.[1]).toBeCloseTo(116.686292, 4);
  expect(joined?.[2]).toBeCloseTo(150, 4);
});
