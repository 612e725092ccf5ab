import { planTile, repeatTile } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

test('two copies made at twice the dots are laid side by side, though the size is the same', () => {
  // A repeat of 20.5 dots comes to 41 in two copies; worked on at twice the dots it has 41 too.
  const axis = { length: 300, repeat: 82, factor: 0.25, seamless: false };
  const planned = planTile({ x: axis, y: axis }, { keep: 0.1 });
  if (!planned.ok) throw new Error(planned.message);
  const { x, y } = planned.value;
  const work = noisePicture(x.workPeriod, y.workPeriod, 4);
  const tile = repeatTile(work, { x: { ...x, copies: 2, period: x.workPeriod }, y });
  expect(tile.width).toBe(work.width);
  // The second copy lies half a tile on: twice as many repeats in as many dots.
  const half = Math.floor(tile.width / 2);
  const row = tile.planes[0].subarray(0, tile.width);
  const off = Array.from({ length: half }, (_, i) => Math.abs(row[i]! - row[i + half]!));
  const far = Array.from({ length: half }, (_, i) => Math.abs(row[i]! - row[(i * 7 + 3) % half]!));
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  expect(mean(off)).toBeLessThan(0.6 * mean(far));
});
