import { largestWindow, type Rectification, toPhotoPoint } from '@gaugerod/core';
import { expect, test } from 'vitest';

const size = { width: 1200, height: 800 };

function turned(degrees: number): Rectification {
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [x, y] = [600 - 600 * c + 400 * s, 400 - 600 * s - 400 * c];
  return { matrix: [c, -s, x, s, c, y, 0, 0, 1], lens: 0 };
}

// Looking up or down: a point at x, y goes to 600 + (x - 600) / w, 400 + (y - 400) / w, where
// w = 1 + h (y - 400).
const leaning = (h: number, lens = 0): Rectification => ({
  matrix: [1, 600 * h, -240_000 * h, 0, 1 + 400 * h, -160_000 * h, 0, h, 1 - 400 * h],
  lens,
});

test('a level photo is all shown', () => {
  const { x, y, width, height } = largestWindow(turned(0), size);
  expect([x, y, width, height].map((value) => Math.round(100 * value) / 100)).toEqual([
    0, 0, 1200, 800,
  ]);
});

test.each([3, -3, 10, 20])(
  'of a photo turned by %d degrees, what geometry says remains',
  (turn) => {
    // The largest upright rectangle in one of w x h turned by t, where w > h and sin 2t < h / w,
    // touches all four sides: W cos t + H sin t = w and W sin t + H cos t = h.
    const t = (Math.abs(turn) * Math.PI) / 180;
    const [c, s] = [Math.cos(t), Math.sin(t)];
    const width = (1200 * c - 800 * s) / (c * c - s * s);
    const height = (800 * c - 1200 * s) / (c * c - s * s);
    const got = largestWindow(turned(turn), size);
    expect(got.width * got.height).toBeCloseTo(width * height, -2);
    expect(Math.abs(got.width - width)).toBeLessThan(0.1);
    expect(Math.abs(got.height - height)).toBeLessThan(0.1);
    // About the middle, by symmetry.
    expect(Math.abs(got.x + got.width / 2 - 600)).toBeLessThan(0.1);
    expect(Math.abs(got.y + got.height / 2 - 400)).toBeLessThan(0.1);
  },
);

test('of a photo looking up, the narrow end says how wide', () => {
  // By hand: w is 0.92 at the top and 1.08 at the foot, which is 1200 / 1.08 wide; from top to foot
  // it is 400 / 0.92 + 400 / 1.08.
  const { width, height, y } = largestWindow(leaning(2e-4), size);
  expect(width).toBeCloseTo(1200 / 1.08, 2);
  expect(height).toBeCloseTo(400 / 0.92 + 400 / 1.08, 2);
  expect(y).toBeCloseTo(400 - 400 / 0.92, 2);
});

test('of a photo through a pincushion lens, the corners say how much', () => {
  // A corner comes nearer to the middle by a twentieth, the middles of the sides by less.
  const { x, y, width, height } = largestWindow(leaning(0, -0.05), size);
  [x - 30, y - 20, width - 1140, height - 760].forEach((off) => {
    expect(Math.abs(off)).toBeLessThan(0.05);
  });
});

test.each([
  ['of a barrel lens', leaning(0, 0.06)],
  ['of a street that recedes', leaning(9e-4, 0.03)],
  ['of a street whose horizon is in the photo', leaning(4e-3)],
])('what remains %s is shown by the photo, middle and all', (_, view) => {
  const { x, y, width, height } = largestWindow(view, size);
  for (let i = 0; i <= 40; i++) {
    const [u, v] = [x + (width * i) / 40, y + (height * i) / 40];
    for (const place of [
      { x: u, y },
      { x: u, y: y + height },
      { x, y: v },
      { x: x + width, y: v },
    ]) {
      const seen = toPhotoPoint(view, size, place);
      expect(Math.max(-seen.x, -seen.y, seen.x - 1200, seen.y - 800)).toBeLessThan(0.1);
    }
  }
  expect(x < 600 && y < 400 && x + width > 600 && y + height > 400).toBe(true);
});
