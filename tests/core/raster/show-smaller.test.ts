import { expect, test } from 'vitest';
import { showByArea, showByHalves } from '../../../packages/core/src/raster/show-smaller.js';

const row = (...values: number[]) => ({
  width: values.length,
  height: 1,
  channels: 1,
  data: Uint8Array.from(values),
});

test('by area a dot shows the mean of the pixels it covers', () => {
  // By hand: two pixels to a dot, its middle between them.
  const dots = { spots: Float64Array.of(1, 0.5, 3, 0.5), x: 2, y: 1 };
  expect([...showByArea(row(0, 100, 50, 250), dots)]).toEqual([50, 150]);
});

test('by area a pixel at the edge of a dot counts for its share', () => {
  // Three pixels to a dot whose middle lies a quarter past that of the third: 3/4, 1, 1 and 1/4 of four.
  const dots = { spots: Float64Array.of(2.75, 0.5), x: 3, y: 1 };
  expect([...showByArea(row(9, 40, 80, 120, 160), dots)]).toEqual([(30 + 80 + 120 + 40) / 3]);
});

test('by halves a dot shows what lies between pixels of the picture halved', () => {
  // Halved twice at five pixels to a dot: 10 and 30. Five pixels from the left are 1.25 of those, three
  // quarters of the way from the middle of the first to that of the second.
  const eight = row(10, 10, 10, 10, 30, 30, 30, 30);
  const two = {
    ...eight,
    height: 4,
    data: Uint8Array.from([0, 1, 2, 3].flatMap(() => [...eight.data])),
  };
  const dots = { spots: Float64Array.of(5, 2), x: 5, y: 5 };
  expect([...showByHalves(two, dots)]).toEqual([25]);
});

test('at a pixel to a dot both show the picture', () => {
  const dots = { spots: Float64Array.of(0.5, 0.5, 1.5, 0.5), x: 1, y: 1 };
  expect([...showByArea(row(7, 200), dots)]).toEqual([7, 200]);
  expect([...showByHalves(row(7, 200), dots)]).toEqual([7, 200]);
});
