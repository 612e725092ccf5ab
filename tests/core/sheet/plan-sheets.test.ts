import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Box, PagePoint } from '../../../packages/core/src/page/page.js';
import { planSheets, type SheetPlan } from '../../../packages/core/src/sheet/plan-sheets.js';
import type { SheetOptions } from '../../../packages/core/src/sheet/sheet-options.js';

// ISO 216.
const paper = { width: 210, height: 297 };

function planned(
  parts: readonly { width: number; height: number; name?: string; bleed?: number }[],
  options: Partial<SheetOptions> = {},
): SheetPlan {
  const named = parts.map((part, i) => ({ name: `part ${i}`, ...part }));
  const outcome = planSheets(named, { paper, ...options });
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value;
}

const apart = (a: Box, b: Box): number =>
  Math.max(a.x - b.x - b.width, b.x - a.x - a.width, a.y - b.y - b.height, b.y - a.y - a.height);

const part = fc.record({
  width: fc.double({ min: 2, max: 500, noNaN: true }),
  height: fc.double({ min: 2, max: 500, noNaN: true }),
});

test('no part lies over another or in the margin, and each keeps its size', () => {
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 12 }), (parts) => {
      const { places, pages } = planned(parts, { margin: 5, gap: 7 });
      expect(new Set(places.map(({ part: which }) => which)).size).toBe(parts.length);
      for (const { picture, page } of places) {
        const { box, piece, turned } = picture;
        const sides = turned ? [piece.height, piece.width] : [piece.width, piece.height];
        expect([box.width, box.height]).toEqual(sides);
        // Marks reach half a gap past the part.
        expect(Math.min(box.x, box.y)).toBeGreaterThanOrEqual(5 + 3.5 - 0.011);
        expect(box.x + box.width + 3.5).toBeLessThanOrEqual(paper.width - 5 + 0.011);
        expect(box.y + box.height + 3.5).toBeLessThanOrEqual(paper.height - 5 + 0.011);
        expect(page).toBeLessThan(pages.length);
      }
      for (const [i, a] of places.entries()) {
        for (const b of places.slice(i + 1)) {
          if (a.page !== b.page) continue;
          expect(apart(a.picture.box, b.picture.box)).toBeGreaterThanOrEqual(7 - 0.011);
        }
      }
    }),
  );
});

test('every mark and label stays on the paper, clear of its margin and of every print', () => {
  const { pages } = planned([
    { width: 400, height: 600, bleed: 2 },
    { width: 30, height: 20 },
  ]);
  for (const { lines, texts, pictures } of pages) {
    const points: PagePoint[] = [
      ...lines.flatMap(({ from, to }) => [from, to]),
      ...texts.map(({ at }) => at),
    ];
    for (const { x, y } of points) {
      expect(Math.min(x, y, paper.width - x, paper.height - y)).toBeGreaterThanOrEqual(5 - 0.011);
      for (const { box } of pictures) {
        expect(apart(box, { x, y, width: 0, height: 0 })).toBeGreaterThan(0.4);
      }
    }
  }
});

test('the same parts come to lie the same way again', () => {
  const parts = [80, 33, 120, 61, 45].map((width, i) => ({ width, height: 40 + 13 * i }));
  expect(planned(parts)).toEqual(planned(parts));
});

test('six parts of 90 x 85 mm need one A4 page, and thirteen of them three', () => {
  // By hand: 210 - 2 * 5 - 6.5 = 193.5 across takes 2 of 97; 297 - 10 - 6.5 = 280.5 down takes 3 of 92.
  const some = (count: number): { width: number; height: number }[] =>
    Array.from({ length: count }, () => ({ width: 89, height: 85 }));
  expect(planned(some(6), { turn: false }).pages).toHaveLength(1);
  expect(planned(some(13), { turn: false }).pages).toHaveLength(3);
});

test('copies and layers multiply, and only the first layer carries the print', () => {
  const { places } = planned([{ width: 30, height: 20 }], { copies: 2, layers: 3, mirror: true });
  expect(places.map(({ layer }) => layer)).toEqual([1, 2, 3, 1, 2, 3]);
  const kinds = places.map(({ picture: { blank, mirrored } }) => [blank, mirrored]);
  expect(kinds.slice(0, 3)).toEqual([
    [false, false],
    [true, true],
    [true, true],
  ]);
});

test('crop marks point at the corners of what is left once bleed is cut away', () => {
  const { pages, places } = planned([{ width: 50, height: 30, bleed: 2 }], { turn: false });
  const box = places[0]?.picture.box ?? { x: 0, y: 0, width: 0, height: 0 };
  const marks = pages[0]?.lines.filter(({ width }) => width === 0.1) ?? [];
  const upright = new Set(
    marks.filter(({ from, to }) => from.x === to.x).map(({ from }) => from.x),
  );
  expect([...upright].sort((a, b) => a - b)).toEqual([box.x + 2, box.x + 48]);
});

test('parts of several bleeds share a page, each marked at its own cut edge', () => {
  const sizes = [
    { width: 50, height: 30, bleed: 2 },
    { width: 50, height: 40 },
  ];
  const { pages, places } = planned(sizes, { turn: false });
  expect(pages).toHaveLength(1);
  const marks = pages[0]?.lines.filter(({ width }) => width === 0.1) ?? [];
  for (const [i, bleed] of [2, 0].entries()) {
    const box = places[i]?.picture.box ?? { x: 0, y: 0, width: 0, height: 0 };
    const own = marks.filter(({ from, to }) => from.x === to.x && apart(box, at(from)) < 1);
    expect(new Set(own.map(({ from }) => from.x))).toEqual(
      new Set([box.x + bleed, box.x + 50 - bleed]),
    );
  }
});

const at = ({ x, y }: PagePoint): Box => ({ x, y, width: 0, height: 0 });

test('match marks of two pieces lie on one point of the part', () => {
  const { pages, places } = planned([{ width: 300, height: 50 }], { turn: false });
  const tips = places.map(({ page, picture: { box, piece } }) => {
    const letters = pages[page]?.texts.filter(({ text }) => text === 'A') ?? [];
    return letters
      .filter(({ at }) => at.y > box.y + box.height && at.y < box.y + box.height + 4)
      .map(({ at }) => at.x - box.x + piece.x);
  });
  // By hand: half-way, 150 mm from the left; letters stand a little right of their arrows.
  for (const [x = 0] of tips) expect(Math.abs(x - 150)).toBeLessThan(3);
  expect(tips[0]?.[0]).toBeCloseTo(tips[1]?.[0] ?? 0, 6);
});

test('the bars are 100 mm long, each way', () => {
  const { pages } = planned([{ width: 50, height: 30 }]);
  const lengths = (pages[0]?.lines ?? []).map(({ from, to }) => [to.x - from.x, from.y - to.y]);
  expect(lengths.some(([x = 0, y]) => Math.abs(x - 100) < 1e-9 && y === 0)).toBe(true);
  expect(lengths.some(([x, y = 0]) => Math.abs(y - 100) < 1e-9 && x === 0)).toBe(true);
});

// ISO 216: A5, A6, both ways, and a narrow strip.
test.each([
  [148, 210],
  [210, 148],
  [105, 148],
  [148, 105],
  [105, 297],
  [60, 210],
])('what the page says ends on the paper of %d x %d mm', (width, height) => {
  const options = {
    paper: { width, height },
    footer: () => 'sheet 10 of 12, A5, print at 100 %, not fitted to the page',
  };
  const { pages } = planned([{ width: 30, height: 20 }], options);
  const texts = pages[0]?.texts.filter(({ text }) => text !== 'part 0') ?? [];
  expect(texts.map(({ text }) => text).join(' ')).toContain('fitted');
  for (const {
    text,
    at: { x, y },
    size,
    turn,
  } of texts) {
    // Adobe's metrics of the typeface: capitals of 718, and no line of words wider than 560 a letter, in 1000.
    const long = (text.length * size * 560) / 718;
    expect(size).toBeGreaterThanOrEqual(0.9);
    expect(turn === 0 ? x + long : y).toBeLessThanOrEqual(turn === 0 ? width - 5 : height - 5);
    expect(turn === 0 ? y - size : y - long).toBeGreaterThanOrEqual(5);
  }
});

test('paper with no room, and parts past counting, are refused in words', () => {
  const named = [{ name: 'wall', width: 9000, height: 9000 }];
  expect(planSheets(named, { paper: { width: 30, height: 30 } })).toMatchObject({
    ok: false,
    code: 'paper-too-small',
  });
  expect(planSheets(named, { paper, copies: 50 })).toMatchObject({
    ok: false,
    code: 'too-many-pieces',
  });
});

test.each([
  [{ margin: -1 }, 'expected 0 to 50 for margin, got -1'],
  [{ gap: 1 }, 'expected 3 to 100 for gap, got 1'],
  [{ overlap: Number.NaN }, 'expected 0 to 50 for overlap, got NaN'],
  [{ copies: 1.5 }, 'expected a whole number from 1 to 100 for copies, got 1.5'],
  [{ layers: 0 }, 'expected a whole number from 1 to 100 for layers, got 0'],
])('%o is refused', (options, message) => {
  expect(() => planSheets([{ name: 'a', width: 9, height: 9 }], { paper, ...options })).toThrow(
    new RangeError(message),
  );
});

test('where no page holds what it is to say, that is told', () => {
  const words = 'sheet 10 of 12, print at 100 %, not fitted to the page';
  const planOn = (width: number, height: number, copies = 1): readonly string[] => {
    const options = { paper: { width, height }, footer: (): string => words };
    const outcome = planSheets([{ name: 'part', width: 15, height: 15 }], { ...options, copies });
    if (!outcome.ok) throw new Error(outcome.message);
    // A part to a page of 45 x 60 mm.
    if (width === 45) expect(outcome.value.pages).toHaveLength(copies);
    return outcome.warnings.map(({ code, message }) => `${code}: ${message}`);
  };
  expect(planOn(210, 297)).toEqual([]);
  expect(planOn(45, 60)).toEqual([`no-footer: the page has no room to say "${words}"`]);
  expect(planOn(45, 60, 12)).toEqual([`no-footer: 12 pages have no room to say "${words}"`]);
});
