import { expect, test } from 'vitest';
import {
  addAt,
  coatAt,
  layCoat,
  layPaint,
  toPaint,
  toVeil,
  veilStep,
} from '../../../../packages/core/src/finish/weather/veil.js';

// What a veil makes of a level under it.
function over(
  backdrop: number,
  lay: readonly (readonly ['multiply' | 'screen' | 'cover', number, number])[],
): number {
  const { bricks } = toVeil(new Float32Array(veilStep));
  for (const [mode, colour, share] of lay) {
    layPaint(bricks, toPaint(mode, [colour, colour, colour]), Float32Array.of(share));
  }
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
  const veil = toVeil(new Float32Array(3 * veilStep));
  layCoat(veil, Float32Array.of(0, 0.5, 0.5));
  layCoat(veil, Float32Array.of(0, 0.5, 1));
  const coats = [0, 1, 2].map((place) => veil.bricks[veilStep * place + coatAt]);
  expect(coats).toEqual([0, 0.75, 1]);
});
