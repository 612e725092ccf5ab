import {
  createRaster,
  judgeResolution,
  modelScale,
  dpi,
  realMm,
  toPrintResolution,
} from '@gaugerod/core';
import { expect, test } from 'vitest';

const photo = { x: 1.2, y: 1.2 };

test('62.5 pixels to a 75 mm course are 0.372 dots a pixel in OO at 600 dpi', () => {
  // By hand: 75 / 62.5 = 1.2 mm a pixel; 1.2 / 76.2 x 600 / 25.4 = 0.37200074.
  const { factor } = judgeResolution({ mmPerPx: photo, scale: modelScale(76.2), dpi: dpi(600) });
  expect(factor.x).toBeCloseTo(0.37200074, 8);
  expect(factor.y).toBeCloseTo(0.37200074, 8);
});

test.each([
  // source pixels, mm per pixel, scale, dpi, printed dots: s / ratio x dpi / 25.4, rounded, by hand.
  [[4000, 3000], 1.2, 76.2, 600, [1488, 1116]],
  [[4000, 3000], 1.5625, 148, 600, [998, 748]],
  [[4000, 3000], 1.5625, 147.7818, 600, [999, 749]],
  [[6000, 4000], 1000 / 1200, 87, 600, [1358, 905]],
  [[4032, 3024], 1.5625, 160, 600, [930, 698]],
  [[4032, 3024], 203.2 / 264, 87.0857, 300, [421, 316]],
  [[3000, 2000], 203.2 / 120, 48, 600, [2500, 1667]],
  [[5184, 3456], 200 / 90, 43.5429, 600, [6250, 4166]],
] as const)('%j pixels at %d mm come to %d to 1, %d dpi', (source, mm, ratio, dots, expected) => {
  const mmPerPx = { x: mm, y: mm };
  const { factor } = judgeResolution({ mmPerPx, scale: modelScale(ratio), dpi: dpi(dots) });
  // A tenth of the width is enough to see the rounding of the whole: sizes alone are looked at.
  const [width, height] = source;
  expect([Math.round(width * factor.x), Math.round(height * factor.y)]).toEqual(expected);
});

test('the size is rounded, the factor is not', () => {
  const raster = createRaster(400, 300);
  for (const plane of raster.planes)
    for (let i = 0; i < plane.length; i++) plane[i] = (i % 400) / 400;
  const small = toPrintResolution(raster, { factor: { x: 0.372, y: 0.372 } });
  // 148.8 and 111.6.
  expect([small.width, small.height]).toEqual([149, 112]);
  // Dot 100 covers pixels 100 / 0.372 to 101 / 0.372, wherever the picture ends: mean 270.161 - 0.5; stretched to fit it would be 0.9 off.
  expect(small.planes[0][100]! * 400).toBeCloseTo(100.5 / 0.372 - 0.5, 1);
});

test('a photo too coarse for the printer is said to be so, in numbers', () => {
  // 1:76.2 and 3.3956 mm a pixel: 76.2 x 25.4 / 76.2 ... one inch of paper is 1935.48 mm real.
  const mm = (76.2 * 25.4) / 212;
  const { verdict, warnings, photoDpi } = judgeResolution({
    mmPerPx: { x: mm, y: mm / 2 },
    scale: modelScale(76.2),
    dpi: dpi(600),
  });
  expect(verdict).toBe('this photo holds 212 dots per inch at 1:76.2; 600 asked');
  expect(photoDpi.x).toBeCloseTo(212, 6);
  expect(photoDpi.y).toBeCloseTo(424, 6);
  expect(warnings.map(({ code }) => code)).toEqual(['low-resolution']);
});

test.each([
  // A 10 mm joint at 600 dpi: 10 / ratio x 600 / 25.4 dots, by hand.
  [148, '1.6 dots', true],
  [160, '1.5 dots', true],
  [220, '1.1 dots', true],
  [87, '', false],
  [76.2, '', false],
])('at 1:%d a 10 mm joint under two dots (%s) is warned of: %s', (ratio, words, warned) => {
  const { warnings } = judgeResolution({
    mmPerPx: { x: 0.1, y: 0.1 },
    scale: modelScale(ratio),
    dpi: dpi(600),
    joint: realMm(10),
  });
  expect(warnings.map(({ code }) => code)).toEqual(warned ? ['fine-mortar'] : []);
  if (warned) expect(warnings[0]!.message).toContain(words);
});

test('a size that makes no sense is refused', () => {
  const raster = createRaster(4, 4);
  for (const factor of [0, -1, NaN, Infinity]) {
    expect(() => toPrintResolution(raster, { factor: { x: factor, y: 1 } })).toThrow(RangeError);
    expect(() =>
      judgeResolution({ mmPerPx: { x: factor, y: 1 }, scale: modelScale(148), dpi: dpi(600) }),
    ).toThrow(RangeError);
  }
});
