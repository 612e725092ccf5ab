import { expect, test } from 'vitest';
import { averageSamples } from '../../../packages/core/src/raster/average-samples.js';

const whole = (count: number, pitch: number) => ({ start: 0, pitch, count });

test('a new pixel is the mean of what it covers, as encoded', () => {
  // By hand: (0 + 100 + 50 + 250) / 4 = 100, (10 + 20 + 30 + 40) / 4 = 25.
  const data = Uint8Array.of(0, 100, 10, 20, 50, 250, 30, 40);
  const made = averageSamples({ width: 4, height: 2, channels: 1, data }, whole(2, 2), whole(1, 2));
  expect([...made.data]).toEqual([100, 25]);
});

test('a pixel that is covered in part counts for that part', () => {
  // 1.5 pixels each: (0 + 90 / 2) / 1.5 = 30, (90 / 2 + 150) / 1.5 = 130.
  const data = Uint8Array.of(0, 90, 150);
  const made = averageSamples(
    { width: 3, height: 1, channels: 1, data },
    whole(2, 1.5),
    whole(1, 1),
  );
  expect([...made.data]).toEqual([30, 130]);
});

test('what is transparent has no colour', () => {
  // Red and transparent green: red at half the alpha.
  const data = Uint8Array.of(200, 0, 0, 255, 0, 200, 0, 0);
  const made = averageSamples({ width: 2, height: 1, channels: 4, data }, whole(1, 2), whole(1, 1));
  expect([...made.data]).toEqual([200, 0, 0, 128]);
});

test('past the edge the edge is held', () => {
  const data = Uint8Array.of(10, 20, 30);
  const span = { start: -1, pitch: 1, count: 5 };
  const made = averageSamples({ width: 3, height: 1, channels: 1, data }, span, whole(1, 1));
  expect([...made.data]).toEqual([10, 10, 20, 30, 30]);
});
