import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  solveMembrane,
  type MembraneGrid,
} from '../../../packages/core/src/numeric/solve-membrane.js';

test('a picture laid into another takes its border and keeps its own steps', () => {
  // Perez, Gangnet and Blake 2003, equation 7, solved by hand elimination for this 5 x 5 case: the
  // border of the target is 10 + 2x.
  const source = [
    [1, 2, 3, 4, 5],
    [2, 9, 1, 7, 3],
    [3, 1, 8, 2, 6],
    [4, 7, 2, 9, 1],
    [5, 3, 6, 1, 4],
  ];
  const expected = [
    [18.428571, 11.857143, 19.5],
    [9.857143, 18.5, 14.142857],
    [15.5, 12.142857, 22.571429],
  ];
  // What is solved for is target less source: 0 steps inside, known on the border.
  const less = (x: number, y: number): number => 10 + 2 * x - source[y]![x]!;
  const onBorder = (x: number, y: number): boolean => x % 4 === 0 || y % 4 === 0;
  const sources = new Float32Array(9);
  for (let y = 1; y < 4; y++) {
    for (let x = 1; x < 4; x++) {
      for (const [dx, dy] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        if (onBorder(x + dx, y + dy)) sources[3 * (y - 1) + x - 1]! += less(x + dx, y + dy);
      }
    }
  }
  const values = solveMembrane(sources, { width: 3, height: 3, ends: 'held' });
  for (let y = 0; y < 3; y++) {
    for (let x = 0; x < 3; x++) {
      expect(values[3 * y + x]! + source[y + 1]![x + 1]!).toBeCloseTo(expected[y]![x]!, 5);
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
