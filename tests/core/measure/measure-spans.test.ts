import { type KnownSpan, measureSpans, realMm } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { across, down, measured, size } from '../../support/known-spans.js';

// JCGM 100:2008 (GUM), equations 10 and 12, worked by hand: 1.200 with a standard uncertainty of
// 0.006 and 1.212 with 0.012 weigh 4 to 1: 1.2024, and 1 / sqrt(1 / 0.006^2 + 1 / 0.012^2) is
// 0.0053666. They are 0.894 standard uncertainties apart, under 2, so that they agree.
test('two spans weigh by how well they are known', () => {
  const { value, codes } = measured([across(1200, 6), across(1212, 12, 2000)]);
  expect(value.mmPerPx.x).toBeCloseTo(1.2024, 9);
  expect(value.mmPerPx.y).toBeCloseTo(1.2024, 9);
  expect((value.uncertaintyPercent / 200) * value.mmPerPx.x).toBeCloseTo(0.005367, 6);
  expect(codes).toEqual([]);
  // 1.2 / 1.2024 and 1.212 / 1.2024, less 1.
  expect(value.spans.map(({ residualPercent }) => residualPercent)).toEqual([
    expect.closeTo(-0.1996, 4),
    expect.closeTo(0.7984, 4),
  ]);
});

test('equal spans tell the scale better the more there are', () => {
  // Each is good to sqrt(2) px in 1000, 0.141 %; four of them to half of that (GUM, 4.2.3).
  const four = [down(1200, 1000), down(1200, 1600), down(1200, 2400), down(1200, 3000)];
  expect(measured(four.slice(0, 1)).value.uncertaintyPercent).toBeCloseTo(0.2828, 4);
  expect(measured(four).value.uncertaintyPercent).toBeCloseTo(0.1414, 4);
});

test('of three spans the one that contradicts the others is named and left out', () => {
  const { value, messages, codes } = measured([
    across(1200, 1),
    across(1201, 1, 1700),
    across(1248, 1, 1900),
  ]);
  expect(codes).toEqual(['spans-disagree']);
  expect(messages[0]).toBe(
    'span 3 disagrees by 4 % with the others and is left out: is it in the same plane?',
  );
  expect(value.spans.map(({ used }) => used)).toEqual([true, true, false]);
  expect(value.mmPerPx.x).toBeCloseTo(1.2005, 9);
  // What is left out is no reference.
  expect(value.reference).toMatchObject({ name: '2 spans of known length, the longest 1.201 m' });
});

test('of two spans that contradict each other nobody knows which is wrong', () => {
  const { value, messages } = measured([across(1200, 1), across(1248, 1, 1900)]);
  expect(messages).toEqual([
    'spans 1 and 2 disagree by 4 %: one of them is wrong, or they are not in the same plane; mark a third to tell which',
  ]);
  expect(value.confidence).toBeLessThanOrEqual(0.5);
  // Both lie within what is told.
  const told = (value.uncertaintyPercent / 100) * value.mmPerPx.x;
  for (const { mmPerPx } of value.spans) {
    expect(Math.abs(mmPerPx - value.mmPerPx.x)).toBeLessThan(told);
  }
});

test('spans that contradict each other past all sense are next to worthless', () => {
  const { value, codes } = measured([across(1200, 1), across(2400, 1, 1900)]);
  expect(codes).toEqual(['spans-disagree']);
  expect(value.confidence).toBeLessThanOrEqual(0.2);
});

test('spans that agree each way but not with one another speak of a slant', () => {
  const { messages, value } = measured([
    across(1200, 1),
    across(1201, 1, 1700),
    down(1250, 1800),
    down(1249, 2200),
  ]);
  expect(messages).toEqual([
    'spans 1 and 2 across and spans 3 and 4 down disagree by 3.9 %: are they in the same plane, or is the photo slanted or stretched?',
  ]);
  expect(value.spans.every(({ used }) => used)).toBe(true);
});

test('the same span twice counts once', () => {
  const again = { ...across(1200, 6), from: { x: 2500, y: 1500 }, to: { x: 1500, y: 1501 } };
  const { value, codes } = measured([across(1200, 6), again]);
  expect(codes).toEqual(['spans-repeat']);
  expect(value.uncertaintyPercent).toBeCloseTo(1, 9); // 2 * 6 / 1200
  expect(() => measureSpans(size, [across(1200, 6), { ...again, length: realMm(1300) }])).toThrow(
    'expected one length for spans 1 and 2, the same line, for lengths, got "1200 mm and 1300 mm"',
  );
});

test('a photo that may be off square says less', () => {
  const middle = down(1200);
  expect(measured([middle]).value.budget.map(({ source }) => source)).not.toContain('perspective');
  const part = (span: KnownSpan): number =>
    measured([span], { slant: 5 }).value.budget.find(({ source }) => source === 'perspective')
      ?.percent ?? 0;
  // A slant of 5 degrees foreshortens by 0.381 % (1 - cos 5); anywhere up to that alike: over
  // sqrt(3) (GUM, 4.3.7). About the middle nothing else comes in.
  expect(part(middle)).toBeCloseTo(0.381 / Math.sqrt(3), 3);
  // 1000 px to the right of it, the wall is 1000 / 4000 * tan 5 = 2.187 % nearer or farther for a
  // focal length as long as the picture, 36 mm of a 35 mm camera.
  expect(part(down(1200, 3000))).toBeCloseTo(Math.hypot(0.381, 2.187) / Math.sqrt(3), 2);
  // One on either side: it cancels.
  const both = measured([down(1200, 1000), down(1200, 3000)], { slant: 5 }).value.budget;
  expect(both.find(({ source }) => source === 'perspective')?.percent).toBeCloseTo(0.22, 2);
});

test('no span, a span of no length and one that leaves the picture measure nothing', () => {
  expect(() => measureSpans(size, [])).toThrow(/^expected one span or more for spans/);
  const point = { ...across(1200, 1), to: { x: 1500, y: 1500 } };
  expect(() => measureSpans(size, [down(1200), point])).toThrow(
    'expected two points a pixel or more apart for spans, got "1500,1500 1500,1500"',
  );
  const outside = { ...across(1200, 1), to: { x: 4001, y: 1500 } };
  expect(measureSpans(size, [down(1200), outside])).toMatchObject({
    ok: false,
    code: 'outside-photo',
  });
});

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
