import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  solveMembrane,
  type MembraneGrid,
} from '../../../packages/core/src/numeric/solve-membrane.js';

type Square = readonly (readonly number[])[];

// A square picture laid into another, of which only the border counts. What is solved for is target less
// source: no sources inside, known on the border.
function layInto(source: Square, border: (x: number, y: number) => number): number[][] {
  const size = source.length - 2;
  const less = (x: number, y: number): number =>
    x % (size + 1) === 0 || y % (size + 1) === 0 ? border(x, y) - source[y]![x]! : 0;
  const sources = Float32Array.from({ length: size * size }, (_, at) => {
    const [x, y] = [(at % size) + 1, Math.floor(at / size) + 1];
    return less(x - 1, y) + less(x + 1, y) + less(x, y - 1) + less(x, y + 1);
  });
  const values = solveMembrane(sources, { width: size, height: size, ends: 'held' });
  return Array.from({ length: size }, (_, y) =>
    Array.from({ length: size }, (_, x) => source[y + 1]![x + 1]! + values[y * size + x]!),
  );
}

// Of no order.
const picture = [
  [1, 2, 3, 4, 5],
  [2, 9, 1, 7, 3],
  [3, 1, 8, 2, 6],
  [4, 7, 2, 9, 1],
  [5, 3, 6, 1, 4],
] as const;

test('a picture laid into another takes its border and keeps its own steps', () => {
  // Perez, Gangnet and Blake 2003, equation 7, solved by hand elimination for this 5 x 5 case: the
  // border of the target is 10 + 2x.
  const expected = [
    [18.428571, 11.857143, 19.5],
    [9.857143, 18.5, 14.142857],
    [15.5, 12.142857, 22.571429],
  ];
  const laid = layInto(picture, (x) => 10 + 2 * x);
  for (const [y, row] of expected.entries()) {
    for (const [x, value] of row.entries()) expect(laid[y]![x]).toBeCloseTo(value, 5);
  }
});

// By the same equation. A plane, and a constant is one, is as high at every pixel as its four neighbours
// are in the mean: what differs from the source by a plane on the border does so everywhere.
test.each([
  ['a constant', [7, 0, 0]],
  ['a plane that rises to the right', [0, 3, 0]],
  ['a plane that falls across', [40, 1.5, -2.25]],
] as const)('what differs by %s on its border does so inside', (_, [constant, right, down]) => {
  const lift = (x: number, y: number): number => constant + right * x + down * y;
  const large = Array.from({ length: 20 }, (_, y) =>
    Array.from({ length: 20 }, (_, x) => picture[(3 * y + x) % 5]![(2 * x + y) % 5]!),
  );
  for (const source of [picture, large]) {
    const laid = layInto(source, (x, y) => source[y]![x]! + lift(x, y));
    for (const [y, row] of laid.entries()) {
      for (const [x, value] of row.entries()) {
        expect(value).toBeCloseTo(source[y + 1]![x + 1]! + lift(x + 1, y + 1), 5);
      }
    }
  }
});

test('in one dimension the difference rises evenly from end to end', () => {
  // The same paper in one row: g = 5 7 4 9 6 8 between 10 and 20 gives 10 13.4 11.8 18.2 16.6 20.
  const sources = Float32Array.from([10 - 5, 0, 0, 20 - 8]);
  const values = solveMembrane(sources, { width: 4, height: 1, ends: 'free' });
  const g = [7, 4, 9, 6];
  const got = g.map((value, i) => value + values[i]!);
  [13.4, 11.8, 18.2, 16.6].forEach((value, i) => {
    expect(got[i]).toBeCloseTo(value, 5);
  });
});

// What the sources must have been, from the definition alone.
function sourcesOf(values: Float32Array, { width, height, ends }: MembraneGrid): number[] {
  return [...values].map((value, at) => {
    const x = at % width;
    const y = (at - x) / width;
    let sum = 2 * value - (x > 0 ? values[at - 1]! : 0) - (x + 1 < width ? values[at + 1]! : 0);
    for (const step of [-1, 1]) {
      const row = ends === 'closed' ? (y + step + height) % height : y + step;
      const inside = row >= 0 && row < height;
      if (inside) sum += value - values[row * width + x]!;
      else if (ends === 'held') sum += value;
    }
    return sum;
  });
}

test('put back into the equation, the solution gives the sources', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: 3, max: 12 }),
      fc.constantFrom('closed', 'free', 'held'),
      fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 144, maxLength: 144 }),
      (width, height, ends, numbers) => {
        const sources = Float32Array.from(numbers.slice(0, width * height));
        const grid = { width, height, ends } as const;
        const again = sourcesOf(solveMembrane(sources, grid), grid);
        again.forEach((value, at) => {
          expect(value).toBeCloseTo(sources[at]!, 4);
        });
      },
    ),
  );
});
