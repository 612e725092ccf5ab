import { type AxisPlan, type AxisToPlan, dpi, planTile } from '@gaugerod/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

function planned(axis: Partial<AxisToPlan> & { length: number }): AxisPlan {
  const whole = { repeat: null, factor: 1, seamless: false, ...axis };
  const plan = planTile({ x: whole, y: whole });
  if (!plan.ok) throw new Error(plan.message);
  return plan.value.x;
}

test('a wall of 21.3 stretchers gives a tile of whole stretchers and whole dots', () => {
  // 4000 px of 1.2 mm at 1:76.2, 600 dpi; a stretcher is 225 mm = 187.5 px = 69.7501 dots, and
  // four of them 279.0006.
  const plan = planned({ length: 4000, repeat: 187.5, factor: 0.37200074 });
  expect(plan.copies).toBe(1);
  const fours = (plan.repeats ?? 0) / 4;
  expect(fours).toBeOneOf([4, 5]);
  expect(plan.period).toBe(fours * 279);
  expect(plan.drift).toBeLessThan(0.5);
});

test('where no number of repeats in the photo is true enough, the tile holds several copies', () => {
  // UK two courses at 1:148: 23.9413 dots. Three of them are 71.824, 0.25 % short of 72.
  const plan = planned({ length: 3.4 * 96, repeat: 96, factor: 23.9413 / 96 });
  expect(plan.copies).toBeGreaterThan(1);
  expect(Math.abs(plan.scaleError)).toBeLessThanOrEqual(0.001);
});

const anyAxis = fc.record({
  length: fc.double({ min: 200, max: 6000, noNaN: true }),
  held: fc.double({ min: 1.01, max: 60, noNaN: true }),
  factor: fc.double({ min: 0.05, max: 3, noNaN: true }),
  seamless: fc.boolean(),
});

test('any tile is whole, true to 0.1 %, and made of what the photo holds', () => {
  fc.assert(
    fc.property(anyAxis, ({ length, held, factor, seamless }) => {
      const repeat = length / held;
      const plan = planned({ length, repeat, factor, seamless });
      expect(Number.isInteger(plan.period)).toBe(true);
      expect(Number.isInteger(plan.workPeriod)).toBe(true);
      const mm = seamless ? length : (plan.repeats ?? 0) * repeat;
      expect(Math.abs(plan.period / (plan.copies * mm * factor) - 1)).toBeLessThanOrEqual(0.001);
      expect(plan.scaleError).toBeCloseTo(plan.period / (plan.copies * mm * factor) - 1, 9);
      expect(mm).toBeLessThanOrEqual(length * 1.0001);
      expect(plan.workFactor * mm).toBeCloseTo(plan.workPeriod, 6);
    }),
  );
});

test('of photos with twenty repeats or more, three tiles in four drift by half a dot over A3 at most', () => {
  let good = 0;
  for (let i = 0; i < 100; i++) {
    const repeat = 120 + 0.37 * i;
    const plan = planned({ length: 4000, repeat, factor: 0.3 + 0.0017 * i });
    if (plan.drift <= 0.5) good++;
  }
  expect(good).toBeGreaterThanOrEqual(75);
});

test('a texture without courses keeps its scale exactly and leaves an eighth to cut in', () => {
  const plan = planned({ length: 1000, factor: 0.5 });
  expect(plan).toMatchObject({ repeats: null, copies: 1, scaleError: 0, workFactor: 0.5 });
  expect(plan.period).toBe(437);
});

test('a photo with less than one repeat is refused', () => {
  const short = { length: 90, repeat: 100, factor: 1, seamless: false };
  const long = { ...short, length: 200 };
  const refusal = (way: string): unknown => ({
    ok: false,
    code: 'too-few-repeats',
    message: `this photo holds 90 % of one repeat of the bond ${way}; a tile needs a whole one`,
    hint: 'use a photo that shows more of the wall',
  });
  expect(planTile({ x: short, y: long })).toEqual(refusal('side by side'));
  expect(planTile({ x: long, y: short })).toEqual(refusal('one above the other'));
  // A photo that was cut to one repeat is a hair shorter by measurement: half a per cent, not more.
  expect(planned({ length: 99.6, repeat: 100 })).toMatchObject({ repeats: 1, workPeriod: 100 });
  expect(planTile({ x: { ...short, length: 99.5 }, y: long })).toMatchObject({ ok: false });
});

// Worked by hand from what is told of a plan: a tile ends on a whole dot, within 0.1 % and better by half a dot over
// A3, 420 mm (ISO 216) or 9921.26 dots at 600 dpi; it holds 3000 dots at most unless one copy takes more.
describe('by hand', () => {
  test.each([
    // 100.4, 200.8, 301.2 and 401.6 drift by more than 5 dots; 502 by none.
    { length: 100.4, factor: 1, copies: 5, period: 502, workPeriod: 100 },
    // Copies are brought to print once more: they are mended at 1.6 times the dots where the photo has them.
    { length: 200.8, factor: 0.5, copies: 5, period: 502, workPeriod: 161 },
    { length: 125.5, factor: 0.8, copies: 5, period: 502, workPeriod: 126 },
    // No finer than the photo is.
    { length: 50.2, factor: 2, copies: 5, period: 502, workPeriod: 50 },
    // One copy: as fine as it prints.
    { length: 1000, factor: 0.5, copies: 1, period: 500, workPeriod: 500 },
    // 2900.3 drifts by 1.03 dots; twice that would be too long.
    { length: 2900.3, factor: 1, copies: 1, period: 2900, workPeriod: 2900 },
    // 1400.35 drifts by 2.5 dots, two of it by 1.06, and a third would be too long.
    { length: 1400.35, factor: 1, copies: 2, period: 2801, workPeriod: 1400 },
    // 1000.3 drifts by 3 dots and two of it by 2, which is not worth twice the pixels.
    { length: 1000.3, factor: 1, copies: 1, period: 1000, workPeriod: 1000 },
    // Half a dot over the page is as good as none: 1 part in 19842.
    { length: 1000.05, factor: 1, copies: 1, period: 1000, workPeriod: 1000 },
    { length: 0.4, factor: 1, copies: 1, period: 1, workPeriod: 1 },
  ])('$length px at $factor dots a pixel', ({ length, factor, copies, period, workPeriod }) => {
    const plan = planned({ length, factor, seamless: true });
    expect(plan).toMatchObject({ repeats: null, copies, period, workPeriod });
    expect(plan.workFactor).toBeCloseTo(workPeriod / length, 12);
    const error = period / (copies * Math.max(1, length * factor)) - 1;
    expect(plan.scaleError).toBeCloseTo(error, 12);
    expect(plan.drift).toBeCloseTo(Math.abs(error) * 9921.26, 2);
  });

  test('a finished tile holds as many repeats as come nearest to its length', () => {
    expect(planned({ length: 449, repeat: 100, seamless: true }).repeats).toBe(4);
    expect(planned({ length: 451, repeat: 100, seamless: true }).repeats).toBe(5);
    expect(planned({ length: 40, repeat: 100, seamless: true }).repeats).toBe(1);
  });

  test.each([
    // A repeat is left over to cut in rather than none.
    { length: 1000, repeat: 100, repeats: 9, period: 900 },
    // 0.3 of one are too little, unless there is a joint every half of it.
    { length: 1030, repeat: 100, repeats: 9, period: 900 },
    { length: 1030, repeat: 100, unit: 50, repeats: 10, period: 1000 },
    // Eleven would drift by 0.9 of a dot over A3, ten by none.
    { length: 1150, repeat: 100.1, unit: 10, repeats: 10, period: 1001 },
    // Of three, no two without a third of the photo lost: less than 60 % of its area kept.
    { length: 301.5, repeat: 100.5, repeats: 3, period: 603 },
  ])('$length px of repeats of $repeat px give $repeats', ({ repeats, period, ...axis }) => {
    expect(planned(axis)).toMatchObject({ repeats, period });
  });

  test('how much of the photo is kept can be asked for', () => {
    const axis = { length: 301.5, repeat: 100.5, factor: 1, seamless: false };
    const repeatsAt = (keep: number): unknown => {
      const plan = planTile({ x: axis, y: axis }, { keep });
      return plan.ok && plan.value.y.repeats;
    };
    // Two of three repeats each way are 44 % of the area.
    expect([0, 44, 45, 100].map(repeatsAt)).toEqual([2, 2, 3, 3]);
  });

  test.each([
    { length: 1000, factor: 0.5, period: 437, workPeriod: 437, workFactor: 0.5 },
    // Most like itself after 400 px.
    { length: 1000, likeness: 400, factor: 0.5, period: 200, workPeriod: 200, workFactor: 0.5 },
    { length: 300, likeness: 400, factor: 0.5, period: 150, workPeriod: 150, workFactor: 0.5 },
    // Finer than the photo: mended pixel by pixel, 88.375 of them, and 176.75 dots.
    { length: 101, factor: 2, period: 176, workPeriod: 88, workFactor: 1 },
    { length: 101, factor: 1, period: 88, workPeriod: 88, workFactor: 1 },
    { length: 3, factor: 0.01, period: 1, workPeriod: 1, workFactor: 0.01 },
    { length: 0.5, factor: 3, period: 1, workPeriod: 1, workFactor: 3 },
  ])('without courses $length px at $factor give $period dots', ({ likeness = null, ...row }) => {
    const { length, factor, ...wanted } = row;
    const plan = planned({ length, factor, period: likeness });
    expect(plan).toEqual({ repeats: null, copies: 1, scaleError: 0, drift: 0, ...wanted });
  });

  test('a coarser tile is taken where that will do', () => {
    const axis = { length: 100.4, repeat: null, factor: 1, seamless: true };
    // 100 for 100.4 is 0.4 % off, and drifts by 4.7 dots over A3 at 72 dpi; five of it by none.
    const rough = planTile({ x: axis, y: axis }, { tolerance: 0.005, resolution: dpi(10) });
    // At 10 dpi A3 has 165 dots: 0.4 % of them are 0.66, two of 100.4 as 201 are 0.16.
    expect(rough).toMatchObject({ value: { x: { copies: 2, period: 201 } } });
  });
});

test('numbers that make no sense are refused', () => {
  const axis = { length: 500, repeat: 100, factor: 1, seamless: false };
  for (const bad of [0, -1, NaN, Infinity]) {
    expect(() => planTile({ x: { ...axis, factor: bad }, y: axis })).toThrow(RangeError);
    expect(() => planTile({ x: axis, y: { ...axis, repeat: bad } })).toThrow(RangeError);
  }
  const both = { x: axis, y: axis };
  for (const keep of [101, -1, NaN])
    expect(() => planTile(both, { keep })).toThrow('expected 0 to 100 per cent for keep, got ');
  for (const tolerance of [0, -1, NaN])
    expect(() => planTile(both, { tolerance })).toThrow(
      'expected a fraction above 0 for tolerance',
    );
  expect(() => planTile({ x: axis, y: { ...axis, length: 0 } })).toThrow(
    'expected a finite number above 0 for axis, got 0',
  );
});

test('drift counts in dots of the printer that is asked for', () => {
  // An A3 page is 420 mm (ISO 216): 420 / 25.4 * 72 = 1190.55 dots at 72 dpi.
  const axis = { length: 1000, repeat: null, factor: 1, seamless: true };
  const wall = { length: 100.4, repeat: 100.4, factor: 1, seamless: true };
  const plan = planTile({ x: wall, y: axis }, { resolution: dpi(72) });
  if (!plan.ok) throw new Error(plan.message);
  const { scaleError, drift } = plan.value.x;
  expect(drift).toBeCloseTo(Math.abs(scaleError) * 1190.55, 2);
});

test('no photo is mended finer than it is', () => {
  const plan = planned({ length: 900, repeat: 100, factor: 7.3 });
  expect(plan.workFactor).toBeCloseTo(1, 2);
  expect(plan.period / (plan.copies * plan.workPeriod)).toBeCloseTo(7.3, 1);
});
