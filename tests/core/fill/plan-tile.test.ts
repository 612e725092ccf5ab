import { type AxisPlan, type AxisToPlan, dpi, planTile } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

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
  const axis = { length: 90, repeat: 100, factor: 1, seamless: false };
  const plan = planTile({ x: axis, y: { ...axis, length: 200 } });
  expect(plan).toMatchObject({ ok: false, code: 'too-few-repeats' });
});

test('numbers that make no sense are refused', () => {
  const axis = { length: 500, repeat: 100, factor: 1, seamless: false };
  for (const bad of [0, -1, NaN, Infinity]) {
    expect(() => planTile({ x: { ...axis, factor: bad }, y: axis })).toThrow(RangeError);
    expect(() => planTile({ x: axis, y: { ...axis, repeat: bad } })).toThrow(RangeError);
  }
  expect(() => planTile({ x: axis, y: axis }, { keep: 101 })).toThrow(RangeError);
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
