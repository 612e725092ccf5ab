import {
  createRaster,
  cutRows,
  dpi,
  type Fill,
  type PartOutline,
  printMm,
  type ShapeToFill,
} from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

const tile = noisePicture(37, 23, 11);

// At 25.4 dpi a dot is a millimetre.
function cut(outline: PartOutline, more: Partial<ShapeToFill> = {}): Fill {
  return cutRows(tile, { outline, dpi: dpi(25.4), ...more });
}

const loop = (...points: readonly number[]): Float64Array => Float64Array.from(points);
const rect = (x: number, y: number, w: number, h: number): Float64Array =>
  loop(x, y, x + w, y, x + w, y + h, x, y + h);
const back = (points: Float64Array): Float64Array =>
  Float64Array.from(
    { length: points.length },
    (_, i) => points[points.length - 2 - i + 2 * (i % 2)]!,
  );
const circle = (x: number, y: number, r: number, pieces = 2000): Float64Array =>
  Float64Array.from({ length: 2 * pieces }, (_, i) => {
    const angle = (2 * Math.PI * Math.floor(i / 2)) / pieces;
    return i % 2 === 0 ? x + r * Math.cos(angle) : y + r * Math.sin(angle);
  });

const alphaOf = ({ rows }: Fill): number[][] =>
  Array.from(rows.rows(), (row) => Array.from({ length: rows.width }, (_, x) => row[4 * x + 3]!));

// Square millimetres that are covered.
const areaOf = (fill: Fill): number =>
  alphaOf(fill)
    .flat()
    .reduce((a, b) => a + b, 0) / 255;

test('a rectangle that ends within a dot covers that dot by its share', () => {
  const alpha = alphaOf(cut({ loops: [rect(0, 0, 3.5, 2.25)], rule: 'nonzero' }));
  // Halves and quarters of 255, rounded.
  expect(alpha).toEqual([
    [255, 255, 255, 128],
    [255, 255, 255, 128],
    [64, 64, 64, 32],
  ]);
});

test('a slanting edge covers each dot by the triangle or trapezium in it', () => {
  const alpha = alphaOf(cut({ loops: [loop(0, 0, 4, 0, 0, 2)], rule: 'nonzero' }));
  // By hand: the edge falls half a dot to the column; 3/4 and 1/4 of a dot lie above it.
  expect(alpha).toEqual([
    [255, 255, 191, 64],
    [191, 64, 0, 0],
  ]);
});

// The figures of SVG 1.1, 11.3, and SVG 2, 13.4.2, on fill-rule: a star of five points drawn in one
// line, and rings of two circles.
const R = 100;
const star = Float64Array.from({ length: 10 }, (_, i) => {
  const angle = (4 * Math.PI * Math.floor(i / 2)) / 5 - Math.PI / 2;
  return i % 2 === 0 ? R * Math.cos(angle) : R * Math.sin(angle);
});
// The five-sided middle has its corners at R / phi^2 (phi: 1.618034), area 5/2 r^2 sin 72.
const middle = 2.5 * (R / 1.6180339887 ** 2) ** 2 * Math.sin((72 * Math.PI) / 180);
// Its ten corners lie 36 degrees apart, at R and r by turns: ten triangles of R r sin 36 / 2.
const whole = 5 * R * (R / 1.6180339887 ** 2) * Math.sin((36 * Math.PI) / 180);

test.each([
  ['a star', 'nonzero', whole, [star]],
  ['a star', 'evenodd', whole - middle, [star]],
  ['two circles the same way', 'nonzero', Math.PI * 2500, [circle(0, 0, 50), circle(0, 0, 30)]],
  ['two circles the same way', 'evenodd', Math.PI * 1600, [circle(0, 0, 50), circle(0, 0, 30)]],
  ['circles opposite ways', 'nonzero', Math.PI * 1600, [circle(0, 0, 50), back(circle(0, 0, 30))]],
] as const)('%s by %s cover %d', (_, rule, area, loops) => {
  expect(Math.abs(areaOf(cut({ loops, rule })) / area - 1)).toBeLessThan(0.0005);
});

test('no line shows where loops of opposite ways meet within a dot', () => {
  const loops = [rect(0, 0, 2.5, 3), back(rect(2.5, 0, 2.5, 3))];
  expect(alphaOf(cut({ loops, rule: 'nonzero' })).flat()).toEqual(Array(15).fill(255));
});

test('a line that crosses itself covers both of its halves', () => {
  // Two triangles, tip to tip: half of the square they stand in.
  const bow = loop(0, 0, 10, 10, 10, 0, 0, 10);
  expect(areaOf(cut({ loops: [bow], rule: 'nonzero' }))).toBeCloseTo(50, 0);
  expect(areaOf(cut({ loops: [bow], rule: 'evenodd' }))).toBeCloseTo(50, 0);
});

// Wound round by how often: the definition of fill-rule in SVG 2, 13.4.2, at one point.
function windingAt(loops: readonly Float64Array[], x: number, y: number): number {
  let wound = 0;
  for (const points of loops) {
    for (let i = 0; i < points.length; i += 2) {
      const j = (i + 2) % points.length;
      const [ax, ay, bx, by] = [points[i]!, points[i + 1]!, points[j]!, points[j + 1]!];
      if (ay <= y === by <= y) continue;
      const at = ax + ((y - ay) / (by - ay)) * (bx - ax);
      if (at > x) wound += by > ay ? 1 : -1;
    }
  }
  return wound;
}

test('any lines at all: a dot is covered as by looking at many points of it', () => {
  const number = fc.double({ min: 0, max: 8, noNaN: true });
  const points = fc
    .array(number, { minLength: 6, maxLength: 16 })
    .map((list) => loop(...list.slice(0, 2 * Math.floor(list.length / 2))));
  fc.assert(
    fc.property(
      fc.array(points, { minLength: 1, maxLength: 3 }),
      fc.constantFrom('nonzero' as const, 'evenodd' as const),
      (loops, rule) => {
        // A frame of its own, so that the picture begins where it does.
        const framed = [rect(-1, -1, 0.5, 0.5), rect(9, 9, 0.5, 0.5), ...loops];
        const alpha = alphaOf(cut({ loops: framed, rule }));
        const fine = 24;
        for (let y = 0; y < 8; y++) {
          for (let x = 0; x < 8; x++) {
            let inside = 0;
            for (let k = 0; k < fine * fine; k++) {
              const [px, py] = [
                x + ((k % fine) + 0.5) / fine,
                y + (Math.floor(k / fine) + 0.5) / fine,
              ];
              const wound = windingAt(loops, px, py);
              if (rule === 'nonzero' ? wound !== 0 : wound % 2 !== 0) inside++;
            }
            // A line of a dot's length may pass all points of a row by: a few of 24.
            expect(Math.abs(alpha[y + 1]![x + 1]! / 255 - inside / fine ** 2)).toBeLessThan(0.09);
          }
        }
      },
    ),
    { numRuns: 60 },
  );
});

test('bleed goes past the outer edge alone: a ring grows outwards, its hole stays', () => {
  const loops = [circle(0, 0, 50), circle(0, 0, 30)];
  const grown = cut({ loops, rule: 'evenodd' }, { bleed: printMm(4) });
  expect([grown.rows.width, grown.bleedPx]).toEqual([108, 4]);
  // pi (54^2 - 30^2).
  expect(Math.abs(areaOf(grown) / (Math.PI * (2916 - 900)) - 1)).toBeLessThan(0.001);
});

test('bleed fills the corner of an L and goes round its others', () => {
  // By hand, bleed 2: an L of 10 x 10 less 6 x 6, 64, with an outline of 40; 2 x 40 along it, less the
  // 2 x 2 that two sides of the inner corner share, and five quarters of a disc of radius 2 outside.
  const grown = cut(
    { loops: [loop(0, 0, 4, 0, 4, 6, 10, 6, 10, 10, 0, 10)], rule: 'nonzero' },
    { bleed: printMm(2) },
  );
  expect(areaOf(grown)).toBeCloseTo(64 + 80 - 4 + 5 * Math.PI, 0);
});

test('a window near the edge gets no bleed from outside', () => {
  const loops = [rect(0, 0, 20, 20), rect(1, 5, 6, 6)];
  const alpha = alphaOf(cut({ loops, rule: 'evenodd' }, { bleed: printMm(3) }));
  for (let y = 5; y < 11; y++) {
    expect(alpha[y + 3]!.slice(4, 10)).toEqual(Array(6).fill(0));
  }
});

test('two parts cut from one wall are the same wherever both are opaque', () => {
  const shape = fc.record({
    x: fc.double({ min: -40, max: 40, noNaN: true }),
    y: fc.double({ min: -40, max: 40, noNaN: true }),
    r: fc.double({ min: 3, max: 20, noNaN: true }),
  });
  fc.assert(
    fc.property(shape, shape, (a, b) => {
      const seen = new Map<string, string>();
      for (const { x, y, r } of [a, b]) {
        const datum = { x, y };
        const { rows } = cut({ loops: [circle(r, r, r, 60)], rule: 'nonzero' }, { datum });
        const [left, top] = [Math.floor(x + 1e-6), Math.floor(y + 1e-6)];
        let line = 0;
        for (const row of rows.rows()) {
          for (let i = 0; i < rows.width; i++) {
            if (row[4 * i + 3] !== 255) continue;
            const place = `${left + i},${top + line}`;
            const colour = row.subarray(4 * i, 4 * i + 3).join();
            expect(seen.get(place) ?? colour).toBe(colour);
            seen.set(place, colour);
          }
          line++;
        }
      }
    }),
    { numRuns: 60 },
  );
});

test('what is transparent has the colour of the wall, so that smoothing darkens no edge', () => {
  const grey = createRaster(4, 4);
  for (const plane of grey.planes) plane.fill(0.5);
  const fill = cutRows(grey, {
    outline: { loops: [circle(5, 5, 5)], rule: 'nonzero' },
    dpi: dpi(25.4),
  });
  // Half of the light is 188 of 255 in sRGB (IEC 61966-2-1).
  for (const row of fill.rows.rows()) {
    for (let i = 0; i < row.length; i += 4)
      expect([...row.subarray(i, i + 3)]).toEqual([188, 188, 188]);
  }
});

test('lines that cross without end are refused, not followed', () => {
  // 6000 lines across all of a row, every one of which crosses all others.
  const points = Array.from({ length: 6000 }, (_, i) => [i % 2 === 0 ? 0 : 40, (i * 0.37) % 1]);
  const fill = cut({ loops: [loop(0, 0, 40, 0, ...points.flat())], rule: 'evenodd' });
  expect(() => [...fill.rows.rows()]).toThrow(/crosses itself, or is jagged, too often/);
});
