import { expect, test } from 'vitest';
import { openPainter } from '../../../../packages/core/src/finish/weather/paint-row.js';
import {
  coatAt,
  fadedAt,
  layCoat,
  layOverAll,
  layOverBricks,
  layOverJoints,
  openVeil,
  toPaint,
  veilStep,
} from '../../../../packages/core/src/finish/weather/veil.js';

// What is added begins after the coat, and joints half way.
const [addAt, jointsAt] = [coatAt + 1, veilStep / 2];

// A row of two places, told.
function told(numbers: readonly number[], faded: readonly [number, number, number]): Float32Array {
  const size = { width: 4, from: 0, wanted: 4, bare: false, places: 4, isToned: false } as const;
  const { rows, tell } = openPainter({ ...size, pixels: 1, bricks: 1, faded });
  rows[0].set(numbers);
  tell(rows[0]);
  return rows[0];
}

// What a veil makes of a level under it.
function over(
  backdrop: number,
  lay: readonly (readonly ['multiply' | 'screen' | 'cover', number, number])[],
): number {
  const veil = openVeil(2);
  for (const [mode, colour, share] of lay) {
    layOverAll(veil, toPaint(mode, [colour, colour, colour]), Float32Array.of(share, share));
  }
  const { bricks, joints } = veil;
  for (const at of [1, 2, veilStep]) expect(joints[at]).toBe(bricks[0]);
  for (const at of [1, 2, veilStep]) expect(bricks[at + addAt]).toBe(joints[addAt]);
  return backdrop * (1 + bricks[0]!) + bricks[addAt]!;
}

test.each([
  // W3C Compositing and Blending Level 1, formulas of 10.1.1 and 10.1.2 worked by hand.
  ['multiply', 0.2, 0.4, 1, 0.08],
  ['multiply', 0.6, 0.9, 1, 0.54],
  ['screen', 0.2, 0.4, 1, 0.52],
  ['screen', 0.25, 0.75, 1, 0.8125],
  // And 5.1, simple alpha compositing: (1 - share) * under + share * mixture.
  ['multiply', 0.2, 0.4, 0.5, 0.14],
  ['screen', 0.2, 0.4, 0.5, 0.36],
  ['cover', 0.2, 0.8, 0.5, 0.5],
] as const)('%s: %d under %d, %d of it, is %d', (mode, backdrop, colour, share, expected) => {
  expect(over(backdrop, [[mode, colour, share]])).toBeCloseTo(expected, 6);
});

test('what is laid later lies on top', () => {
  // Half covered with 0.8, then multiplied by 0.5: (0.2 + 0.8) / 2 * 0.5.
  expect(
    over(0.2, [
      ['cover', 0.8, 0.5],
      ['multiply', 0.5, 1],
    ]),
  ).toBeCloseTo(0.25, 6);
  expect(
    over(0.2, [
      ['multiply', 0.5, 1],
      ['cover', 0.8, 0.5],
    ]),
  ).toBeCloseTo(0.45, 6);
});

test('nothing changes nothing', () => {
  expect(
    over(0.37, [
      ['multiply', 0.1, 0],
      ['screen', 0.9, 0],
      ['cover', 0.5, 0],
    ]),
  ).toBe(0.37);
});

test('coat upon coat leaves as much bare as both together', () => {
  const veil = openVeil(3);
  layCoat(veil, Float32Array.of(0, 0.5, 0.5));
  layCoat(veil, Float32Array.of(0, 0.5, 1));
  const coats = [0, 1, 2].map((place) => veil.bricks[veilStep * place + coatAt]);
  expect(coats).toEqual([0, 0.75, 1]);
});

test('paint lies on bricks or joints, from one place up to another, each in its colour', () => {
  // Black over half: half of what is under it is left, and nothing added. Then red, 0.75 of it, over a quarter of that.
  const veil = openVeil(5);
  const half = new Float32Array(5).fill(0.5);
  layOverBricks(veil, toPaint('cover', [0, 0, 0]), half, { from: 1, to: 3 });
  layOverJoints(veil, toPaint('cover', [0.75, 0, 0]), new Float32Array(5).fill(0.25));
  const bricks = [0, 1, 2, 3, 4].map((place) => veil.bricks[veilStep * place + 2]);
  expect(bricks).toEqual([0, -0.5, -0.5, 0, 0]);
  const joint = [...veil.joints.subarray(4 * veilStep, 4 * veilStep + addAt + 3)];
  expect(joint).toEqual([-0.25, -0.25, -0.25, 0, 0.1875, 0, 0]);
});

test('of joints is told by how much they differ, as far as no coat hides it', () => {
  const bricks = [-0.5, -0.5, -0.5, 0.5, 0.25, 0, 0, 0];
  const row = told([...bricks, -0.25, -0.5, 0, 0, 0.75, 0.5, 0], [0, 0, 0]);
  const joints = row.subarray(jointsAt);
  expect([...joints.subarray(0, 3)]).toEqual([0.125, 0, 0.25]);
  expect([...joints.subarray(addAt, addAt + 3)]).toEqual([0.25, 0.25, 0]);
});

test('what faded before all else shows its colour as far as what was laid on it later lets it', () => {
  // A fifth of a colour gave way to 0.5, 0.75 and 1; half of both is left under black, and of joints a quarter. W3C
  // Compositing and Blending Level 1, 5.1, worked by hand: 0.2 times 0.5, and times 0.25, of the faded colour is added.
  const place = (left: number): number[] => [0, 1, 2].map(() => 0.8 * left - 1);
  const row = told(
    [...place(0.5), 0, 0, 0, 0, 0.25, ...place(0.25), 0, 0, 0, 0, 0],
    [0.5, 0.75, 1],
  );
  const adds = [addAt, addAt + 1, addAt + 2];
  const expected = [0.05, 0.075, 0.1];
  for (const [i, at] of adds.entries()) {
    expect(row[at]).toBeCloseTo(expected[i] ?? NaN, 6);
    expect(row[jointsAt + at]).toBeCloseTo(-(expected[i] ?? NaN) / 2, 6);
  }
  expect(fadedAt).toBe(7);
});
