import { expect, test } from 'vitest';
import { measureSpans, realMm } from '@gaugerod/core';

const size = { width: 4000, height: 3000 };

// JCGM 100:2008 (GUM), equations 10 and 12, worked by hand: s = n c / px, u(px) = sqrt(2) u1,
// U = 2 u; a course of 75 mm, n of them over so many pixels, and U in per cent.
test.each([
  { courses: 1, courseU: 0, px: 62.5, mark: 1, percent: 4.5255 },
  { courses: 4, courseU: 0, px: 250, mark: 1, percent: 1.1314 },
  { courses: 10, courseU: 0, px: 625, mark: 1, percent: 0.4525 },
  { courses: 10, courseU: 0.5, px: 625, mark: 0.5, percent: 1.3524 },
  { courses: 10, courseU: 1, px: 625, mark: 1, percent: 2.7048 },
  { courses: 10, courseU: 1 / Math.sqrt(3), px: 625, mark: 0.5, percent: 1.5561 },
  { courses: 20, courseU: 1, px: 1250, mark: 0.5, percent: 2.6691 },
])('$courses courses marked to $mark px are good to $percent %', (row) => {
  const outcome = measureSpans(size, [
    {
      from: { x: 10, y: 20 },
      to: { x: 10, y: 20 + row.px },
      length: realMm(row.courses * 75),
      markUncertainty: row.mark,
      lengthUncertainty: row.courseU / 75,
    },
  ]);
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.value.mmPerPx.x).toBeCloseTo(1.2, 9);
  expect(outcome.value.mmPerPx.y).toBeCloseTo(1.2, 9);
  // The worked figures are printed to four decimals.
  expect(outcome.value.uncertaintyPercent).toBeCloseTo(row.percent, 4);
});

test('a slanting span counts along its own length', () => {
  const outcome = measureSpans(size, [
    {
      from: { x: 0, y: 0 },
      to: { x: 300, y: 400 },
      length: realMm(1000),
    },
  ]);
  // 3, 4, 5: 500 px.
  expect(outcome).toMatchObject({ ok: true, value: { mmPerPx: { x: 2, y: 2 } } });
});

test('a span that leaves the picture is refused', () => {
  const outcome = measureSpans(size, [
    {
      from: { x: 0, y: 0 },
      to: { x: 0, y: 3001 },
      length: realMm(1000),
    },
  ]);
  expect(outcome).toMatchObject({ ok: false, code: 'outside-photo' });
});

test('two points in one place measure nothing', () => {
  const at = { x: 5, y: 5 };
  expect(() => measureSpans(size, [{ from: at, to: at, length: realMm(10) }])).toThrow(RangeError);
});
