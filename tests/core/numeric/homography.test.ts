import { applyHomography, invertHomography, multiplyHomographies } from '@gaugerod/core';
import { expect, test } from 'vitest';

// The nine numbers of OpenCV 4.6, scikit-image 0.19 and ml-matrix 6.15 for the corners
// (100,80) (520,140) (500,430) (80,400) to (0,0) (450,0) (450,300) (0,300), to nine decimals.
const published = [
  0.940155569, 0.058759723, -98.716334697, -0.128984758, 0.902893305, -59.332988625, -0.000212961,
  -0.000028195, 1,
] as const;

test('a published homography takes points where the published table says', () => {
  const inside = applyHomography(published, 300, 250);
  expect(inside.x).toBeCloseTo(213.139747, 2);
  expect(inside.y).toBeCloseTo(137.444825, 2);
});

test('the way back of the rectangle middle is where the diagonals of the four corners cross', () => {
  const { x, y } = applyHomography(invertHomography(published), 225, 150);
  expect(x).toBeCloseTo(310.232558, 2);
  expect(y).toBeCloseTo(263.953488, 2);
});

test('there and back is where one started', () => {
  const both = multiplyHomographies(invertHomography(published), published);
  for (const [i, value] of both.entries()) {
    expect(value / both[8]).toBeCloseTo(i % 4 === 0 ? 1 : 0, 9);
  }
});

test('a map onto a line has no way back', () => {
  expect(() => invertHomography([1, 2, 0, 2, 4, 0, 0, 0, 1])).toThrow(RangeError);
});
