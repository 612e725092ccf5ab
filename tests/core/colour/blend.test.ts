import { blend, type BlendMode } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const modes = ['multiply', 'screen', 'overlay', 'hard-light', 'soft-light'] as const;

// Worked by hand from the formulas of W3C Compositing and Blending Level 1, 10.1: backdrop, source, then a
// result for each of the modes above.
const worked = [
  [0.2, 0.4, 0.08, 0.52, 0.16, 0.16, 0.168],
  [0.2, 0.8, 0.16, 0.84, 0.32, 0.68, 0.3488],
  [0.6, 0.3, 0.18, 0.72, 0.44, 0.36, 0.504],
  [0.6, 0.9, 0.54, 0.96, 0.92, 0.92, 0.739677],
  [0.25, 0.75, 0.1875, 0.8125, 0.375, 0.625, 0.375],
  [0.5, 0.5, 0.25, 0.75, 0.5, 0.5, 0.5],
] as const;

test.each(worked)('%d under %d mixes as W3C works it out', (backdrop, source, ...results) => {
  const got = modes.map((mode) => blend(mode, backdrop, source));
  got.forEach((value, i) => {
    expect(Math.abs(value - results[i]!)).toBeLessThan(1e-6);
  });
});

// The same of bytes, to a thousandth of one.
test.each([
  [100, 180, 70.588, 209.412, 141.176, 163.824, 124.577],
  [200, 50, 39.216, 210.784, 166.569, 78.431, 173.779],
  [30, 220, 25.882, 224.118, 51.765, 193.235, 69.387],
] as const)('byte %d under byte %d mixes as W3C works it out', (backdrop, source, ...results) => {
  const got = modes.map((mode) => 255 * blend(mode, backdrop / 255, source / 255));
  got.forEach((value, i) => {
    expect(Math.abs(value - results[i]!)).toBeLessThan(0.0006);
  });
});

const share = fc.double({ min: 0, max: 1, noNaN: true });

test('whatever is mixed stays a colour, and the lighter of two backdrops stays the lighter', () => {
  const modeOf = fc.constantFrom<BlendMode>(...modes);
  fc.assert(
    fc.property(modeOf, share, share, share, (mode, one, other, source) => {
      const [dark, light] = [Math.min(one, other), Math.max(one, other)];
      const [under, over] = [blend(mode, dark, source), blend(mode, light, source)];
      expect(under).toBeGreaterThanOrEqual(-1e-12);
      expect(over).toBeLessThanOrEqual(1 + 1e-12);
      expect(over).toBeGreaterThanOrEqual(under - 1e-12);
    }),
  );
});

test('overlay keeps the black and white of what lies under it', () => {
  fc.assert(
    fc.property(share, (source) => {
      expect([blend('overlay', 0, source), blend('overlay', 1, source)]).toEqual([0, 1]);
    }),
  );
});
