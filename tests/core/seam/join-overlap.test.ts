import { expect, test } from 'vitest';
import { joinOverlap } from '../../../packages/core/src/seam/mend/join-overlap.js';
import type { Overlap } from '../../../packages/core/src/seam/mend/overlap.js';

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

// Two windows of so many columns alike, half and half off their means by 30, as alike to one another as
// asked: all four combinations of signs, so that the figures are exact.
function strangers(columns: number, alike: number): Overlap {
  const signs = [
    [-1, -1],
    [-1, 1],
    [1, -1],
    [1, 1],
  ] as const;
  const rest = Math.sqrt(1 - alike ** 2);
  const fill = (values: readonly number[]): Float32Array =>
    Float32Array.from(values.flatMap((value) => Array<number>(columns).fill(value)));
  return {
    width: columns,
    height: 4,
    margin: 0,
    ending: [fill(signs.map(([one]) => 128 + 30 * one))],
    beginning: [fill(signs.map(([one, other]) => 128 + 30 * (alike * one + rest * other)))],
  };
}

// Standard deviation of a column of four.
function spreadOf(plane: Float32Array, x: number): number {
  const column = plane.filter((_, at) => at % (plane.length / 4) === x);
  const mean = column.reduce((sum, value) => sum + value, 0) / 4;
  return Math.sqrt(column.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 4);
}

test('a fade gives back what averaging takes, at every weight', () => {
  // Heitz and Neyret 2018: a weighted mean of strangers has sqrt(sum w^2) times their standard
  // deviation, by which what is off the mean is divided. Worked by hand for shares of 3/4 and 1/4:
  // sqrt(9/16 + 1/16) = 0.79056942, so 98 and 98 are (-22.5 - 7.5) / 0.79056942 + 128 = 90.052668 and
  // 98 and 158 are (-22.5 + 7.5) / 0.79056942 + 128 = 109.026334.
  const border = new Int32Array(4);
  const [quarter = new Float32Array()] = joinOverlap(strangers(2, 0), {
    method: 'blend',
    border,
    closed: true,
  });
  expect(quarter[0]).toBeCloseTo(90.052668, 4);
  expect(quarter[2]).toBeCloseTo(109.026334, 4);
  // Of those that are alike, 2 w1 w2 r comes to it (JCGM 100:2008, 5.2.2, equation 13).
  for (const alike of [0, 0.3, 0.8, 1]) {
    const windows = strangers(10, alike);
    const [joined = new Float32Array()] = joinOverlap(windows, {
      method: 'blend',
      border,
      closed: true,
    });
    for (let x = 0; x < 10; x++) expect(spreadOf(joined, x)).toBeCloseTo(30, 4);
  }
});

test('windows that differ by a constant are joined by an even slope, wherever they are cut', () => {
  // Perez, Gangnet and Blake 2003, in one dimension: what is added rises evenly from one end to the
  // other. A step so faint (0.0005 of a root of light) is spread whole.
  const [width, height, step] = [9, 6, 0.0005];
  const ending = Float32Array.from({ length: width * height }, (_, at) => ((at * 7) % 11) / 20);
  const windows = {
    width,
    height,
    margin: 2,
    ending: [ending],
    beginning: [ending.map((root) => root + step)],
  };
  for (const border of [Int32Array.of(4, 4, 4, 4, 4, 4), Int32Array.of(3, 4, 6, 5, 4, 3)]) {
    const [joined] = joinOverlap(windows, { method: 'gradient', border, closed: true });
    for (const [at, root] of (joined ?? []).entries()) {
      const share = ((at % width) + 1) / (width + 1);
      expect(Math.abs(root - ending[at]! - share * step)).toBeLessThan(2e-7);
    }
  }
});
