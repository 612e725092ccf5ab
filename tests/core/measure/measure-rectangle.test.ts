import {
  type KnownRectangle,
  measureRectangle,
  parseRealSize,
  type Point,
  type RectangleView,
  toLevelPoint,
  type Warning,
} from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import {
  viewAspect,
  viewFocal,
} from '../../../packages/core/src/measure/rectangle/see-rectangle.js';
import { sortCorners } from '../../../packages/core/src/measure/rectangle/sort-corners.js';

const photo = { width: 1920, height: 1080 };
const middle = { x: 960, y: 540 };

// The worked case: a camera of 1000 px looks at a plane of 3 x 2, turned by Ry 30 and Rx -15 degrees
// and moved by (-1.2, -0.8, 6). Corners clockwise from the top left.
const seen: readonly Point[] = [
  { x: 760, y: 406.666667 },
  { x: 1270.683603, y: 362.222222 },
  { x: 1241.179188, y: 819.351439 },
  { x: 697.23079, y: 743.874336 },
];
const rounded = (decimals: number): Point[] =>
  seen.map(({ x, y }) => ({ x: Number(x.toFixed(decimals)), y: Number(y.toFixed(decimals)) }));

interface Measured {
  readonly view: RectangleView;
  readonly warnings: readonly Warning[];
}

function measured(known: KnownRectangle, size = photo): Measured {
  const outcome = measureRectangle(size, known);
  if (!outcome.ok) throw new Error(outcome.message);
  return { view: outcome.value, warnings: outcome.warnings };
}

const codes = (warnings: readonly Warning[]): string[] => warnings.map(({ code }) => code);

describe('the shape of a rectangle, from one view of it', () => {
  // Zhang and He 2003 (MSR-TR-2003-39); corners to 6 and 3 decimals and to whole pixels.
  test.each([
    [6, 1000, 1.5, 5],
    [3, 1000.008, 1.500007, 3],
    [0, 1008.04, 1.504103, 2],
  ])(
    'corners to %d decimals tell the focal length %d and the shape %d',
    (decimals, f, a, digits) => {
      const { corners } = sortCorners(rounded(decimals));
      const focal = viewFocal(corners, middle) ?? NaN;
      expect(focal).toBeCloseTo(f, digits - 2);
      expect(viewAspect(corners, middle, focal)).toBeCloseTo(a, digits);
    },
  );

  test('is what the picture is straightened by, not the mean of its sides', () => {
    const { view, warnings } = measured({ corners: rounded(0) });
    expect(view.shape.aspect).toBeCloseTo(1.5, 1.9);
    // The mean lengths of the sides would say 1.325.
    expect(view.shape.aspect).toBeGreaterThan(1.48);
    expect(Math.abs(view.shape.aspect / 1.5 - 1)).toBeLessThan(2 * view.shape.uncertainty);
    expect(warnings).toEqual([]);
    expect(view.mmPerPx).toBeNull();
  });

  test('is badly told by a small view from afar, and said so in numbers', () => {
    const small = [
      { x: 900, y: 500 },
      { x: 960, y: 500 },
      { x: 960, y: 540 },
      { x: 900, y: 540 },
    ];
    const { view, warnings } = measured({ corners: small });
    expect(view.shape.uncertainty).toBeGreaterThan(0.05);
    expect(codes(warnings)).toEqual(['uncertain-aspect']);
    expect(warnings[0]?.message).toMatch(/ \d\.\d\d, give or take \d+ %/);
  });

  test('is told by a view square on, two of whose sides look parallel', () => {
    const square = [
      { x: 460, y: 240 },
      { x: 1360, y: 240 },
      { x: 1360, y: 840 },
      { x: 460, y: 840 },
    ];
    const { view } = measured({ corners: square });
    expect(view.shape.aspect).toBeCloseTo(1.5, 6);
    expect(view.shape.uncertainty).toBeLessThan(0.02);
    expect(viewFocal(sortCorners(square).corners, middle)).toBeNull();
  });

  test('is told better where the camera noted its focal length', () => {
    const { view: plain } = measured({ corners: tall });
    const focal = { px: 1000, uncertainty: 0.03, source: '' };
    const { view: noted } = measured({ corners: tall, focal });
    expect(noted.shape.uncertainty).toBeLessThan(plain.shape.uncertainty);
  });

  test('is no surer than the focal length that is known', () => {
    // Foot and top are 300 and 200 px wide, so the top is 1.5 times as far; 260 and 340 px below and
    // above the middle, they are (260 + 1.5 x 340) / f apart across the view and 0.5 along it: the
    // door is 300 / hypot(770, 0.5 f) times as wide as high, for 1000 px 0.327. Of a photo that was
    // cut nobody knows by how much: 1300 px, give or take 20 %, are not wrong.
    const off = { px: 1300, uncertainty: 0.2, source: '' };
    const { shape } = measured({ corners: tall, focal: off }).view;
    expect(shape.aspect).toBeCloseTo(300 / Math.hypot(770, 650), 2);
    expect(Math.abs(shape.aspect / 0.327 - 1)).toBeLessThan(2 * shape.uncertainty);
  });
});

// A door of 1 x 2, looked up at: its sides lean together, top and foot look parallel.
const tall: readonly Point[] = [
  { x: 860, y: 200 },
  { x: 1060, y: 200 },
  { x: 1110, y: 800 },
  { x: 810, y: 800 },
];

describe('a rectangle of known size', () => {
  test('makes its plane level, true in millimetres, the photo middle where it was', () => {
    const { view, warnings } = measured({ corners: seen, realSize: parseRealSize('3x2m') });
    const { rectification, mmPerPx } = view;
    const at = seen.map((point) => toLevelPoint(rectification, photo, point));
    const [a, b, c, d] = at.map(({ x, y }) => ({ x: x * (mmPerPx ?? 0), y: y * (mmPerPx ?? 0) }));
    if (!a || !b || !c || !d) throw new Error('four corners');
    for (const [from, to, x, y] of [
      [a, b, 3000, 0],
      [b, c, 0, 2000],
      [d, c, 3000, 0],
    ] as const) {
      expect(to.x - from.x).toBeCloseTo(x, 6);
      expect(to.y - from.y).toBeCloseTo(y, 6);
    }
    const still = toLevelPoint(rectification, photo, middle);
    expect([still.x, still.y]).toEqual([expect.closeTo(960, 9), expect.closeTo(540, 9)]);
    expect(warnings).toEqual([]);
  });

  test('has the scale of a ruler laid along it', () => {
    // 900 px for 1800 mm.
    const corners = [
      { x: 100, y: 100 },
      { x: 1000, y: 100 },
      { x: 1000, y: 550 },
      { x: 100, y: 550 },
    ];
    const { view } = measured({ corners, realSize: parseRealSize('1800x900mm') });
    expect(view.mmPerPx).toBeCloseTo(2, 9);
    // Four marks of 1 px, two to a side (GUM 5.1.2): the mean of two lengths of 900, each of two ends,
    // is off by 1 px in 900, the mean of two of 450 by 1 in 450; both counted alike.
    const { view: about } = measured({
      corners: corners.map(({ x, y }) => ({ x: x + 410, y: y + 215 })),
      realSize: parseRealSize('1800x900mm'),
    });
    const marks = about.budget.find(({ source }) => source === 'marks')?.percent ?? NaN;
    expect(marks).toBeCloseTo(100 * Math.sqrt((900 ** -2 + 450 ** -2) / 2), 2);
  });

  test('is doubted where its corners show a slightly different shape', () => {
    const { warnings } = measured({ corners: seen, realSize: parseRealSize('3.4x2m') });
    expect(codes(warnings)).toEqual(['contradictory-size']);
    expect(warnings[0]?.message).toContain('1.50 times as wide as high');
  });

  test.each([
    // 3 x 2 given as 2 x 3: out by 2.25.
    ['2x3m', 'the other way round (--real-size 3x2m)'],
    ['2x3.2m', 'the other way round (--real-size 3.2x2m)'],
    ['6x2m', 'the four corners of one rectangle'],
    ['300x2m', 'the four corners of one rectangle'],
  ])('is refused where its corners show quite another shape than %s', (size, hint) => {
    const outcome = measureRectangle(photo, { corners: seen, realSize: parseRealSize(size) });
    expect(outcome).toMatchObject({ ok: false, code: 'contradictory-size' });
    expect(outcome).toHaveProperty('hint', expect.stringContaining(hint));
  });
});

// Upright, in the photo's middle.
const square = (side: number): Point[] => [
  { x: 960, y: 540 },
  { x: 960 + side, y: 540 },
  { x: 960 + side, y: 540 + side },
  { x: 960, y: 540 + side },
];

describe('corners', () => {
  const [a, b, c, d] = seen;
  if (!a || !b || !c || !d) throw new Error('four corners');

  test.each([
    ['from another corner', [c, d, a, b]],
    ['the other way round', [d, c, b, a]],
    ['crossed', [a, c, b, d]],
  ])('in another order, %s, are put in order, and it is said', (_, corners) => {
    const { view, warnings } = measured({ corners });
    expect(view.corners).toEqual(seen);
    expect(codes(warnings)).toEqual(['corners-sorted']);
  });

  test.each([
    ['three', seen.slice(1), 'four points'],
    ['the same twice', [a, b, c, { x: c.x + 3, y: c.y }], '8 px or more from one another'],
    ['three in a line', [a, { x: 800, y: 500 }, { x: 840, y: 593.3 }, d], 'no three lie in a line'],
    ['9 px wide and high', square(9), 'a rectangle of 12 px or more each way'],
    ['one inside', [a, b, c, { x: 1100, y: 540 }], 'none lies between the others'],
  ])('that are no rectangle are refused: %s', (_, corners, why) => {
    expect(() => measureRectangle(photo, { corners })).toThrow(RangeError);
    expect(() => measureRectangle(photo, { corners })).toThrow(why);
  });

  test('outside the photo are refused by name', () => {
    const corners = [a, b, c, { x: 697, y: 1081 }];
    expect(measureRectangle(photo, { corners })).toMatchObject({
      ok: false,
      code: 'outside-photo',
    });
  });

  test('whose plane runs out of sight in the photo are refused', () => {
    // Sides that meet at x = 1350 make a horizon there.
    const corners = [
      { x: 100, y: 100 },
      { x: 1000, y: 400 },
      { x: 1000, y: 680 },
      { x: 100, y: 980 },
    ];
    expect(measureRectangle(photo, { corners })).toMatchObject({ ok: false, code: 'too-slanted' });
  });
});
