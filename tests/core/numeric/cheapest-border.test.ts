import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cheapestBorder } from '../../../packages/core/src/numeric/cheapest-border.js';

interface Costs {
  readonly width: number;
  readonly across: Float32Array;
  readonly along: Float32Array;
}

function costOf(
  { width, across, along }: Costs,
  border: ArrayLike<number>,
  closed: boolean,
): number {
  let sum = 0;
  const height = across.length / width;
  for (let y = 0; y < height; y++) {
    const x = border[y]!;
    sum += across[y * width + x]!;
    if (y === 0 && !closed) continue;
    const above = border[y > 0 ? y - 1 : height - 1]!;
    for (let at = Math.min(x, above); at < Math.max(x, above); at++) sum += along[y * width + at]!;
  }
  return sum;
}

// The table of cheapest-cut.test.ts, with all ways along a row free: by hand, the least of each row.
test('where joints are free to follow, every row is passed where it is cheapest', () => {
  const across = Float32Array.from([4, 1, 7, 3, 9, 6, 5, 2, 8, 3, 9, 4, 6, 1, 7]);
  const along = new Float32Array(15);
  expect([...cheapestBorder({ width: 5, across, along })]).toEqual([1, 2, 3]);
});

test('a border follows a joint sideways where brick would cost more', () => {
  // By hand: straight down costs 1 + 9; by the joint between the rows 1 + 1 + 1 + 1.
  const across = Float32Array.from([1, 9, 9, 9, 9, 1]);
  const along = Float32Array.from([0, 0, 0, 1, 1, 9]);
  expect([...cheapestBorder({ width: 3, across, along })]).toEqual([0, 2]);
});

test.each([false, true])('it is the cheapest of all there are, closed: %s', (closed) => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 1, max: 4 }),
      fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 32, maxLength: 32 }),
      (width, height, numbers) => {
        const across = Float32Array.from(numbers.slice(0, width * height));
        const along = Float32Array.from(numbers.slice(16, 16 + width * height));
        const costs = { width, across, along };
        // Every border there is.
        let least = Infinity;
        for (let i = 0; i < width ** height; i++) {
          const border = Array.from(
            { length: height },
            (_, y) => Math.floor(i / width ** y) % width,
          );
          least = Math.min(least, costOf(costs, border, closed));
        }
        const found = cheapestBorder(costs, { closed });
        expect(costOf(costs, found, closed)).toBe(least);
      },
    ),
    { numRuns: 300 },
  );
});

test('costs that are not whole rows are refused', () => {
  const costs = { width: 3, across: new Float32Array(5), along: new Float32Array(5) };
  expect(() => cheapestBorder(costs)).toThrow(RangeError);
});
