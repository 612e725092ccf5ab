import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  createNoise,
  fade,
  noiseAt,
  type NoiseOctave,
} from '../../../../packages/core/src/finish/weather/noise.js';
import {
  createRows,
  hiddenNoise,
  listOctaves,
  shownShare,
} from '../../../../packages/core/src/finish/weather/octaves.js';
import { rise, smooth, softenStep } from '../../../../packages/core/src/finish/weather/site.js';

const octave: NoiseOctave = {
  cell: { x: 70, y: 50 },
  wrap: { x: 0, y: 0 },
  seed: 77,
  weight: 1,
};

test('noise rises by the polynomial of improved noise', () => {
  // Perlin 2002, Improving noise: 6t^5 - 15t^4 + 10t^3; at 1/4 that is 6/1024 - 15/256 + 10/64.
  expect([fade(0), fade(0.25), fade(0.5), fade(1)]).toEqual([0, 0.103515625, 0.5, 1]);
  for (const [at, inwards] of [
    [0, 1e-4],
    [1, -1e-4],
  ] as const) {
    const slope = (fade(at + inwards) - fade(at)) / inwards;
    const bend = (fade(at + 2 * inwards) - 2 * fade(at + inwards) + fade(at)) / inwards ** 2;
    expect(Math.abs(slope)).toBeLessThan(1e-6);
    expect(Math.abs(bend)).toBeLessThan(1e-2);
  }
});

function momentsOf(values: readonly number[]): {
  readonly mean: number;
  readonly deviation: number;
} {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  return { mean, deviation: Math.sqrt(square) };
}

test('noise is nought where its cells meet, and has the standard deviation that is asked for', () => {
  // Gradient noise is nought at every corner, by what it is (Perlin 1985, An image synthesizer).
  for (const { seed } of [octave, { seed: 5 }]) {
    const values: number[] = [];
    for (let i = 0; i < 120_000; i++) {
      // The plastic number's powers: spread evenly, in step with no lattice.
      const [x, y] = [(i * 0.7548776662 * 9999) % 70_000, (i * 0.569840291 * 9999) % 50_000];
      values.push(noiseAt({ ...octave, seed, weight: 0.5 }, x, y));
    }
    const { mean, deviation } = momentsOf(values);
    expect(Math.abs(mean)).toBeLessThan(0.01);
    expect(Math.abs(deviation / 0.5 - 1)).toBeLessThan(0.02);
  }
});

test('of several octaves variances add up: all of them have a standard deviation of 1', () => {
  const ground = { seed: 9, period: { x: 0, y: 0 }, finest: 1 };
  const octaves = listOctaves(ground, { id: 3, cell: 400, count: 5, gain: 0.7 });
  expect(octaves).toHaveLength(5);
  const sum = octaves.reduce((all, { weight }) => all + weight * weight, 0);
  expect(sum).toBeCloseTo(1, 9);
  const rows = createRows(octaves, { first: -500, count: 3000, step: 17, start: 0 });
  const values = Array.from({ length: 120 }, (_, i) => [...rows(83 * i)]).flat();
  const { mean, deviation } = momentsOf(values);
  expect(Math.abs(mean)).toBeLessThan(0.03);
  expect(Math.abs(deviation - 1)).toBeLessThan(0.04);
});

test('what comes round too soon for coarse octaves has their variance in the others, and none hidden', () => {
  const wish = { id: 3, cell: 260, count: 5, gain: 0.65 };
  // A third of 300 mm is 100: cells of 260 and 130 are too coarse, those of 65, 32.5 and 16.25 are not.
  const ground = { seed: 9, period: { x: 900, y: 300 }, finest: 1 };
  const octaves = listOctaves(ground, wish);
  expect(octaves).toHaveLength(3);
  const sum = octaves.reduce((all, { weight }) => all + weight * weight, 0);
  expect(sum).toBeCloseTo(1, 9);
  expect(hiddenNoise(ground, wish)).toBeCloseTo(0, 6);
  expect(softenStep(ground, wish, { width: 0.7 }).wide).toBeCloseTo(0.7, 6);
  // One octave of the three is below 1.5 places a cell: its share of their variance is what is hidden.
  const all = 1 + 0.65 ** 2 + 0.65 ** 4;
  const hidden = hiddenNoise({ ...ground, finest: 10.83334 }, wish) ** 2;
  expect(hidden).toBeCloseTo(0.65 ** 4 / all, 4);
});

test('row by row it is the same as place by place', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -3000, max: 3000 }),
      fc.double({ min: 0.5, max: 90, noNaN: true }),
      fc.double({ min: -4000, max: 4000, noNaN: true }),
      fc.constantFrom({ x: 0, y: 0 }, { x: 5, y: 0 }, { x: 4, y: 7 }),
      (first, step, y, wrap) => {
        const noise = { ...octave, wrap };
        const add = createNoise(noise, { first, count: 40, step, start: 3 });
        for (const down of [y, y + 20, y + 45, y + 400]) {
          const out = new Float32Array(40);
          add(down, out, { from: 0, to: 40 });
          out.forEach((value, i) => {
            expect(Math.abs(value - noiseAt(noise, (first + i) * step + 3, down))).toBeLessThan(
              2e-4,
            );
          });
        }
      },
    ),
  );
});

test('what comes round is the same a period further on', () => {
  const ground = { seed: 4, period: { x: 690, y: 455 }, finest: 4 };
  for (const noise of listOctaves(ground, { id: 8, cell: 170, count: 3, tall: 3 })) {
    for (const [x, y] of [
      [3, 5],
      [333, 222],
      [689, 1],
    ] as const) {
      expect(noiseAt(noise, x + 690, y)).toBeCloseTo(noiseAt(noise, x, y), 6);
      expect(noiseAt(noise, x, y - 455)).toBeCloseTo(noiseAt(noise, x, y), 6);
    }
  }
});

test('what is too fine to show goes out smoothly, and what is left stays as it was', () => {
  expect([shownShare(1.4, 1), shownShare(3, 1)]).toEqual([0, 1]);
  let last = 0;
  for (let cell = 1; cell < 4; cell += 0.01) {
    const share = shownShare(cell, 1);
    expect(share - last).toBeGreaterThanOrEqual(0);
    expect(share - last).toBeLessThan(0.02);
    last = share;
  }
  const wish = { id: 3, cell: 400, count: 6 };
  const ground = { seed: 9, period: { x: 0, y: 0 } };
  const fine = listOctaves({ ...ground, finest: 1 }, wish);
  const coarse = listOctaves({ ...ground, finest: 30 }, wish);
  expect(coarse.length).toBeLessThan(fine.length);
  expect(coarse.slice(0, 3)).toEqual(fine.slice(0, 3));
});

test('a step over noise too fine to show is covered as its parts are on the whole', () => {
  // Clumps as moss has them: an edge much sharper than the noise is wide.
  const wish = { id: 3, cell: 100, count: 4, gain: 0.7 };
  const ground = { seed: 9, period: { x: 0, y: 0 } };
  const fine = createRows(listOctaves({ ...ground, finest: 2 }, wish), {
    first: 0,
    count: 400,
    step: 7,
    start: 0,
  });
  const values = Array.from({ length: 400 }, (_, i) => [...fine(7 * i)]).flat();
  const step = softenStep({ ...ground, finest: 1000 }, wish, { width: 0.7 });
  for (const past of [-2, -1, -0.3, 0, 0.35, 0.7, 1.5, 2.5]) {
    const parts = values.reduce((sum, value) => sum + smooth((value + past) / 0.7), 0);
    expect(Math.abs(rise(step, past) - parts / values.length)).toBeLessThan(0.03);
  }
  // And what can be shown is not softened.
  expect(softenStep({ ...ground, finest: 2 }, wish, { width: 0.7 }).wide).toBeCloseTo(0.7, 6);
});
