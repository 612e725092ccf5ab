import { expect, test } from 'vitest';
import { grainRows, readyGrain } from '../../../../packages/core/src/finish/weather/grain.js';

// Rows of 60 by 40 places of 2.6 mm, so far to the right of the datum that a table has come round twice.
function grainAt(finer: number): number[] {
  const mm = 2.6 / finer;
  const grain = readyGrain({ seed: 9, period: { x: 0, y: 0 } }, { x: mm, y: mm });
  const rows = grainRows(grain, { left: 1500 * finer, width: 60 * finer });
  const sums = new Array<number>(60 * 40).fill(0);
  const row = new Float32Array(60 * finer);
  for (let y = 0; y < 40 * finer; y++) {
    rows(1000 * finer + y, row);
    row.forEach((value, x) => (sums[60 * Math.floor(y / finer) + Math.floor(x / finer)]! += value));
  }
  return sums.map((sum) => sum / finer ** 2);
}

function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const [ma, mb] = [mean(a), mean(b)];
  const of = (p: readonly number[], q: readonly number[], mp: number, mq: number): number =>
    mean(p.map((value, i) => (value - mp) * (q[i]! - mq)));
  return of(a, b, ma, mb) / Math.sqrt(of(a, a, ma, ma) * of(b, b, mb, mb));
}

test.each([2, 3])('grain looked up in a table is the grain reckoned %d times as fine', (finer) => {
  expect(correlation(grainAt(1), grainAt(finer))).toBeGreaterThan(0.8);
});
