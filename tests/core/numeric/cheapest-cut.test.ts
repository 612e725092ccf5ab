import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cheapestCut } from '../../../packages/core/src/numeric/cheapest-cut.js';

// Efros and Freeman 2001, section 2.2, on a table of ours; both answers found by trying every path.
const costs = Float32Array.from(
  [
    [4, 1, 7, 3, 9],
    [6, 5, 2, 8, 3],
    [9, 4, 6, 1, 7],
    [3, 8, 5, 4, 2],
    [7, 2, 9, 3, 6],
    [1, 6, 8, 5, 4],
  ].flat(),
);

test('the cheapest cut is found, where a greedy one would cost 13', () => {
  expect([...cheapestCut(costs, 5)]).toEqual([1, 2, 3, 2, 1, 0]);
});

test('a cut that must itself repeat ends in the column it began in', () => {
  expect([...cheapestCut(costs, 5, { closed: true })]).toEqual([3, 2, 3, 4, 3, 3]);
});

test('a search leaves nothing behind that a later one beside it would take for a bargain', () => {
  // By hand: closed in the first column 1 + 2 + 0 + 0, in the second 0 + 2 + 0 + 1, in the third
  // 0 + 2 + 0 + 0.
  const table = Float32Array.from([1, 0, 0, 2, 3, 2, 0, 0, 0, 0, 1, 0]);
  const cut = cheapestCut(table, 3, { closed: true });
  expect(cut[0]).toBe(cut.at(-1));
  expect(costOf(table, 3, cut)).toBe(2);
});

function costOf(table: Float32Array, width: number, cut: Int32Array): number {
  return cut.reduce((sum, x, y) => sum + table[y * width + x]!, 0);
}

// Every column tried as the beginning, one full table each: slow and plain.
function cheapestClosedPlainly(table: Float32Array, width: number): number {
  const height = table.length / width;
  let least = Infinity;
  for (let start = 0; start < width; start++) {
    let sums = Array.from({ length: width }, (_, x) => (x === start ? table[x]! : Infinity));
    for (let y = 1; y < height; y++) {
      const above = sums;
      sums = above.map((_, x) => {
        const from = Math.min(above[x - 1] ?? Infinity, above[x]!, above[x + 1] ?? Infinity);
        return table[y * width + x]! + from;
      });
    }
    least = Math.min(least, sums[start]!);
  }
  return least;
}

test('halving the table finds what trying every column finds', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 9 }),
      fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 9, maxLength: 120 }),
      (width, numbers) => {
        const table = Float32Array.from(
          numbers.slice(0, numbers.length - (numbers.length % width)),
        );
        const cut = cheapestCut(table, width, { closed: true });
        expect(cut[0]).toBe(cut.at(-1));
        for (let y = 1; y < cut.length; y++) {
          expect(Math.abs(cut[y]! - cut[y - 1]!)).toBeLessThanOrEqual(1);
        }
        expect(costOf(table, width, cut)).toBe(cheapestClosedPlainly(table, width));
      },
    ),
  );
});
