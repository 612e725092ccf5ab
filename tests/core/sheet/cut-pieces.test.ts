import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cutPieces } from '../../../packages/core/src/sheet/cut-pieces.js';

const options = { overlap: 8, turn: false };

test('a part that fits is left whole', () => {
  const { pieces, turned } = cutPieces(
    { width: 120, height: 80 },
    { width: 120, height: 80 },
    options,
  );
  expect(turned).toBe(false);
  expect(pieces).toEqual([
    {
      box: { x: 0, y: 0, width: 120, height: 80 },
      place: null,
      joins: { left: null, right: null, top: null, bottom: null },
    },
  ]);
});

test('a part of 300 mm on paper of 190 mm is two equal pieces that share 8 mm', () => {
  // By hand: (300 + 8) / 2 = 154 each, the second from 300 - 154 = 146 on; both meet at 150.
  const { pieces } = cutPieces({ width: 300, height: 50 }, { width: 190, height: 280 }, options);
  expect(pieces.map(({ box }) => [box.x, box.width])).toEqual([
    [0, 154],
    [146, 154],
  ]);
  const [first, second] = pieces.map(({ box, joins }) => [
    joins.left === null ? null : box.x + joins.left,
    joins.right === null ? null : box.x + joins.right,
  ]);
  expect([first, second]).toEqual([
    [null, 150],
    [150, null],
  ]);
});

test('a part is turned only where that saves a cut', () => {
  const most = { width: 190, height: 280 };
  const lying = { overlap: 8, turn: true };
  expect(cutPieces({ width: 270, height: 100 }, most, lying)).toMatchObject({ turned: true });
  expect(cutPieces({ width: 180, height: 270 }, most, lying)).toMatchObject({ turned: false });
  expect(cutPieces({ width: 270, height: 100 }, most, options).pieces).toHaveLength(2);
});

test('pieces cover the part, none is larger than the page, neighbours share the overlap', () => {
  const side = fc.double({ min: 1, max: 3000, noNaN: true });
  const page = fc.double({ min: 50, max: 400, noNaN: true });
  fc.assert(
    fc.property(side, side, page, page, (width, height, most, high) => {
      const { pieces } = cutPieces({ width, height }, { width: most, height: high }, options);
      const row = pieces.filter(({ place }) => (place?.row ?? 0) === 0);
      expect(row[0]?.box.x).toBe(0);
      const last = row.at(-1)?.box;
      expect((last?.x ?? 0) + (last?.width ?? 0)).toBeCloseTo(width, 6);
      for (const { box } of pieces) {
        expect(box.width).toBeLessThanOrEqual(most + 1e-6);
        expect(box.height).toBeLessThanOrEqual(high + 1e-6);
      }
      for (const [i, { box }] of row.entries()) {
        const next = row[i + 1]?.box;
        if (next) expect(box.x + box.width - next.x).toBeCloseTo(8, 6);
      }
    }),
  );
});
