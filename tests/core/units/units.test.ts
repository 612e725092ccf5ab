import {
  dpi,
  findScale,
  modelScale,
  parseRealLength,
  printMm,
  realMm,
  toDots,
  toPrint,
  toReal,
} from '@gaugerod/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

describe('a length of the real thing', () => {
  const length = fc.double({ min: 1e-3, max: 1e9, noNaN: true });
  const ratio = fc.double({ min: 1, max: 1e4, noNaN: true });

  test('comes back from paper as it was', () => {
    fc.assert(
      fc.property(length, ratio, (mm, real) => {
        const scale = modelScale(real);
        const back = toReal(toPrint(realMm(mm), scale), scale);
        expect(Math.abs(back / mm - 1)).toBeLessThan(1e-15);
      }),
    );
  });

  test('takes more dots the finer the printer and the larger the model', () => {
    fc.assert(
      fc.property(length, ratio, (mm, real) => {
        const dots = (denominator: number, resolution: number) =>
          toDots(toPrint(realMm(mm), modelScale(denominator)), dpi(resolution));
        expect(dots(real, 1200) / dots(real, 600)).toBeCloseTo(2, 12);
        expect(dots(real, 600) / dots(real * 2, 600)).toBeCloseTo(2, 12);
      }),
    );
  });
});

// 1 in = 25.4 mm and 1 ft = 304.8 mm exactly; worked by hand from these.
test.each([
  ['67mm', '1:148', 9916],
  ['67mm', '2 1/16 mm/ft', 9901.381818],
  ['67mm', '1:150', 10050],
  ['67mm', '1:160', 10720],
  ['3.5mm', '1:148', 518],
  ['3.5mm', 'N-UK-nominal', 517.2363636],
  ['3.5mm', '2mm', 533.4],
  ['210mm', 'OO', 16002],
  ['297mm', 'OO', 22631.4],
  ['210mm', 'N-UK', 31080],
  ['297mm', 'N-UK', 43956],
])('%s of paper at %s stands for %f mm', (paper, scale, real) => {
  const mm = toReal(printMm(parseRealLength(paper)), findScale(scale).ratio);
  expect(mm).toBeCloseTo(real, 5);
});

// k = s / ratio * dpi / 25.4, s real mm per source pixel: each row worked by hand from the exact inch
// and foot, and the trade's course sizes (4 UK courses = 300 mm, 12 NF = 16 DF = 1 m on DIN 4172, 3 US
// modular courses = 8 in, a concrete masonry unit 8 x 16 in on centres, 7 Australian courses = 602 mm).
const chain = [
  {
    row: 'A',
    mm: '75mm',
    px: 62.5,
    scale: 'OO',
    dots: 600,
    k: 0.372001,
    from: [4000, 3000],
    to: [1488, 1116],
  },
  {
    row: 'B',
    mm: '300mm',
    px: 192,
    scale: 'N-UK',
    dots: 600,
    k: 0.249388,
    from: [4000, 3000],
    to: [998, 748],
  },
  {
    row: 'B2',
    mm: '300mm',
    px: 192,
    scale: 'N-UK-nominal',
    dots: 600,
    k: 0.249756,
    from: [4000, 3000],
    to: [999, 749],
  },
  {
    row: 'C',
    mm: '1m',
    px: 1200,
    scale: 'H0',
    dots: 600,
    k: 0.226265,
    from: [6000, 4000],
    to: [1358, 905],
  },
  {
    row: 'D',
    mm: '1m',
    px: 640,
    scale: 'N-EU',
    dots: 600,
    k: 0.230684,
    from: [4032, 3024],
    to: [930, 698],
  },
  {
    row: 'E',
    mm: '8in',
    px: 264,
    scale: 'HO',
    dots: 600,
    k: 0.208781,
    from: [4032, 3024],
    to: [842, 631],
  },
  {
    row: 'E3',
    mm: '8in',
    px: 264,
    scale: 'HO',
    dots: 300,
    k: 0.10439,
    from: [4032, 3024],
    to: [421, 316],
  },
  {
    row: 'F',
    mm: '8in',
    px: 120,
    scale: 'O-US',
    dots: 600,
    k: 0.833333,
    from: [3000, 2000],
    to: [2500, 1667],
  },
  {
    row: 'G',
    mm: '200mm',
    px: 90,
    scale: 'O-UK',
    dots: 600,
    k: 1.205558,
    from: [5184, 3456],
    to: [6250, 4166],
  },
  {
    row: 'H',
    mm: '602mm',
    px: 385,
    scale: 'TT-EU',
    dots: 600,
    k: 0.307802,
    from: [4000, 3000],
    to: [1231, 923],
  },
  {
    row: 'I',
    mm: '203.2mm',
    px: 101.6,
    scale: 'N-UK',
    dots: 600,
    k: 0.319217,
    from: [2400, 1600],
    to: [766, 511],
  },
  {
    row: 'J',
    mm: '24in',
    px: 406.4,
    scale: 'EM',
    dots: 600,
    k: 0.465001,
    from: [3000, 2000],
    to: [1395, 930],
  },
  {
    row: 'K',
    mm: '60mm',
    px: 65,
    scale: 'N-JP',
    dots: 600,
    k: 0.145366,
    from: [4000, 3000],
    to: [581, 436],
  },
] as const;

test.each(chain)('photo $row: $mm over $px px at $scale and $dots dpi', (photo) => {
  const mmPerPx = parseRealLength(photo.mm) / photo.px;
  const scaled = (px: number): number =>
    toDots(toPrint(realMm(px * mmPerPx), findScale(photo.scale).ratio), dpi(photo.dots));
  expect(Math.abs(scaled(1) - photo.k)).toBeLessThan(1e-6);
  expect(photo.from.map((side) => Math.round(scaled(side)))).toEqual(photo.to);
});

test.each([
  // The same rows' real lengths in dots, to four places.
  ['75mm', 'OO', 23.25],
  ['300mm', 'OO', 93.0002],
  ['225mm', 'OO', 69.7501],
  ['337.5mm', 'OO', 104.6252],
  ['150mm', 'OO', 46.5001],
  ['75mm', 'N-UK', 11.9706],
  ['225mm', 'N-UK', 35.9119],
  ['75mm', 'N-UK-nominal', 11.9883],
  ['1m', 'H0', 271.5178],
  ['250mm', 'H0', 67.8794],
  ['62.5mm', 'N-EU', 9.2274],
  ['203.2mm', 'HO', 55.1181],
  ['406.4mm', 'O-US', 200],
  ['200mm', 'O-UK', 108.5002],
  ['400mm', 'O-UK', 217.0004],
  ['86mm', 'TT-EU', 16.9291],
  ['203.2mm', 'N-UK', 32.4324],
  ['7.8mm', 'N-UK', 1.2449],
  ['5.7mm', 'N-UK', 0.9098],
  ['76.2mm', 'OO', 23.622],
  ['60mm', 'N-JP', 9.4488],
  ['220mm', 'N-JP', 34.6457],
  // A joint of 10 mm: facts of print, from the same arithmetic.
  ['10mm', 'N-UK', 1.5961],
  ['10mm', 'Z', 1.0737],
])('%s at %s is %f dots at 600 dpi', (real, scale, dots) => {
  const got = toDots(toPrint(parseRealLength(real), findScale(scale).ratio), dpi(600));
  expect(Math.abs(got - dots)).toBeLessThan(6e-5);
});

test.each([0, -0, -1, NaN, Infinity, -Infinity])(
  '%f is no length, resolution or scale',
  (value) => {
    for (const brand of [realMm, printMm, dpi, modelScale]) {
      expect(() => brand(value)).toThrow(/^expected a finite number above 0 for /);
    }
  },
);
