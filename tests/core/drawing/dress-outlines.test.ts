import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  findOutlines,
  type Outline,
} from '../../../packages/core/src/drawing/dress/find-outlines.js';
import { layLattice } from '../../../packages/core/src/drawing/dress/lattice.js';
import { matchKeys } from '../../../packages/core/src/drawing/dress/match-keys.js';
import { parsePaintKey } from '../../../packages/core/src/drawing/dress/paint-key.js';
import { planCover } from '../../../packages/core/src/drawing/dress/plan-cover.js';
import { applyTo, type Matrix } from '../../../packages/core/src/numeric/matrix.js';
import { parseTransform } from '../../../packages/core/src/drawing/geometry/parse-transform.js';
import { readDrawing } from '../../../packages/core/src/drawing/read-drawing.js';

const draw = (inner: string, more = 'width="80mm" height="60mm" viewBox="0 0 80 60"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${more}>${inner}</svg>`;

const outlinesOf = (inner: string): readonly Outline[] =>
  findOutlines(readDrawing(draw(inner))).outlines;

const square = (more = ''): string => `<rect width="10" height="10" ${more}/>`;

// What each drawing shows in a browser is plain to see: one square, of one red.
describe('the fill is found however it is spelled', () => {
  test.each([
    ['an attribute', square('fill="#b5432e"')],
    ['capitals', square('fill="#B5432E"')],
    ['rgb()', square('fill="rgb(181, 67, 46)"')],
    ['rgb() in per cent', square('fill="rgb(70.98% 26.27% 18.04%)"')],
    ['hsl()', square('fill="hsl(9.33 59.47% 44.51%)"')],
    ['a style attribute', square('fill="blue" style="stroke:red;fill:#b5432e"')],
    [
      'a style sheet, by class',
      `<style>.w{fill:#b5432e}</style>${square('class="x w" fill="blue"')}`,
    ],
    ['by name', `<style>rect{fill:#b5432e}</style>${square()}`],
    [
      'by id, before a class',
      `<style>#a{fill:#b5432e} .w{fill:red}</style>${square('id="a" class="w"')}`,
    ],
    ['the later of two', `<style>.w{fill:red} .v{fill:#b5432e}</style>${square('class="v w"')}`],
    [
      'important',
      `<style>.w{fill:#b5432e!important}</style>${square('class="w" style="fill:red"')}`,
    ],
    ['inherited', `<g fill="#b5432e"><g stroke="red">${square()}</g></g>`],
    ['inherited by word', `<g fill="#b5432e">${square('fill="inherit"')}</g>`],
    ['currentColor', `<g color="#b5432e">${square('fill="currentColor"')}</g>`],
    [
      'currentColor of its own',
      `<g fill="currentColor" color="red">${square('color="#b5432e"')}</g>`,
    ],
    ['through a use', `<defs>${square('id="a"')}</defs><use xlink:href="#a" fill="#b5432e"/>`],
    ['in CDATA', `<style><![CDATA[.w{fill:#b5432e}]]></style>${square('class="w"')}`],
  ])('%s', (_, inner) => {
    expect(outlinesOf(inner).map(({ fill }) => fill)).toEqual(['#b5432e']);
  });

  test.each([
    ['nothing said is black', square(), '#000000'],
    ['none', square('fill="none"'), 'none'],
    ['a gradient', square('fill="url(#g)"'), 'other'],
  ])('%s', (_, inner, fill) => {
    expect(outlinesOf(inner).map((one) => one.fill)).toEqual([fill]);
  });
});

describe('why an outline is left', () => {
  test.each([
    ['text', '<text>gable</text>', /is text/],
    ['a line', '<line x2="9"/>', /no area/],
    ['no width', '<rect height="9"/>', /no area/],
    ['a flat path', '<path d="M0 0H9"/>', /no area/],
    ['an empty path', '<path d=""/>', /no area/],
    ['scale(0)', square('transform="scale(0)"'), /flattened/],
    ['skewX(90)', '<rect width="9" height="9" transform="matrix(1 1 1 1 0 0)"/>', /flattened/],
    ['a transform that is none', square('transform="rotate(1,2)"'), /makes no sense/],
    [
      'a transform of a style',
      square('style="transform:rotate(9deg)"'),
      /style that sets transform/,
    ],
    ['not displayed', `<g style="display:none">${square()}</g>`, /hidden/],
    ['not visible', `<g visibility="hidden">${square()}</g>`, /hidden/],
  ])('%s', (_, inner, why) => {
    expect(outlinesOf(inner).map(({ left }) => left)).toEqual([expect.stringMatching(why)]);
  });

  test('what is visible again inside what is not', () => {
    const [one] = outlinesOf(`<g visibility="hidden">${square('visibility="visible"')}</g>`);
    expect(one?.left).toBeNull();
  });
});

test('a drawing without a size on paper is at fault', () => {
  for (const more of [
    'viewBox="0 0 80 60"',
    '',
    'width="80" height="60"',
    'width="80px" height="60px"',
    'width="100%" height="100%"',
    'width="9em" height="9em"',
  ]) {
    expect(findOutlines(readDrawing(draw(square(), more))).fault, more).toMatch(/no size in mm/);
  }
  for (const more of [
    'width="80mm" height="60mm"',
    'width="3in" height="2in"',
    'width="8cm" viewBox="0 0 8 6"',
  ]) {
    expect(findOutlines(readDrawing(draw(square(), more))).fault, more).toBeNull();
  }
});

describe('who is meant', () => {
  const meant = (inner: string, ...keys: string[]): string[] => {
    const drawing = readDrawing(draw(inner));
    const { outlines } = findOutlines(drawing);
    const parsed = keys.map((key) => parsePaintKey(key, 'paint'));
    return matchKeys(drawing, outlines, parsed).matched.map(
      ({ outline, key }) => `${outline.element.id ?? ''}:${keys[key] ?? ''}`,
    );
  };
  const house = `<g id="house" class="brick old"><path id="wall" fill="#b5432e" d="M0 0h9v9z"/><path id="roof" class="slate" fill="#667788" d="M0 0h9v9z"/><path id="line" fill="none" d="M0 0h9v9z"/></g><path id="yard" fill="#b5432e" d="M0 0h9v9z"/>`;

  test.each([
    [['#b5432e'], ['wall:#b5432e', 'yard:#b5432e']],
    [['fill:rgb(181,67,46)'], ['wall:fill:rgb(181,67,46)', 'yard:fill:rgb(181,67,46)']],
    [['#house'], ['wall:#house', 'roof:#house']],
    [['.old'], ['wall:.old', 'roof:.old']],
    [
      ['#house', '.slate'],
      ['wall:#house', 'roof:.slate'],
    ],
    [
      ['#house', '#678'],
      ['wall:#house', 'roof:#678'],
    ],
    [['#667788', '.slate'], ['roof:.slate']],
    [['.slate', '#roof'], ['roof:#roof']],
    [['id:line'], ['line:id:line']],
    [['#nothing'], []],
  ])('%s', (keys, expected) => {
    expect(meant(house, ...keys)).toEqual(expected);
  });

  test('through a use, what is around the use counts too', () => {
    const inner = `<defs><g id="bay">${square('id="pier"')}</g></defs><g id="north"><use xlink:href="#bay"/></g><use xlink:href="#bay"/>`;
    expect(meant(inner, '#north')).toEqual(['pier:#north']);
    expect(meant(inner, '#bay')).toEqual(['pier:#bay', 'pier:#bay']);
  });

  test('what may be a colour or an id, and is both, is told', () => {
    const drawing = readDrawing(draw(`${square('id="abc"')}${square('fill="#aabbcc"')}`));
    const { outlines } = findOutlines(drawing);
    const ask = (key: string): number =>
      matchKeys(drawing, outlines, [parsePaintKey(key, 'paint')]).ambiguous.length;
    expect([ask('#abc'), ask('#aabbcc'), ask('id:abc'), ask('fill:#abc')]).toEqual([1, 0, 0, 0]);
  });

  test.each(['', 'brick', '#', '.', 'fill:brick', 'fill:', 'id:', '# a', 'url(#a)'])(
    '%j is no key',
    (text) => {
      expect(() => parsePaintKey(text, 'paint')).toThrow(RangeError);
    },
  );
});

describe('dots on paper', () => {
  const dot = 0.1;
  const lay = (transform: string): { readonly matrix: Matrix; readonly turned: number } =>
    layLattice(parseTransform(transform) ?? [0, 0, 0, 0, 0, 0], { datum: { x: 0, y: 0 }, dot });

  // Which way an outline's own x axis points on paper, by hand.
  test.each([
    ['', 0],
    ['scale(3 .5)', 0],
    ['rotate(30)', 30],
    ['rotate(-90)', -90],
    ['rotate(180)', 180],
    ['translate(5 5) rotate(45) scale(2)', 45],
    ['skewX(20)', 0],
    ['scale(-1 1)', 0],
    ['scale(1 -1)', 0],
    ['rotate(20) scale(-1 1)', 20],
    ['matrix(0 1 -1 0 0 0)', 90],
  ])('courses turn with %j by %f degrees', (transform, turned) => {
    expect(lay(transform).turned).toBeCloseTo(turned, 9);
  });

  test('a dot is as large whatever the transform', () => {
    // In thousandths: most of all doubles are next to nothing, and flatten what they move.
    const number = fc.integer({ min: -5000, max: 5000 }).map((n) => n / 1000);
    fc.assert(
      fc.property(fc.tuple(number, number, number, number), ([a, b, c, d]) => {
        fc.pre(Math.abs(a * d - b * c) > 1e-3);
        const datum = { x: 3, y: 4 };
        const { matrix } = layLattice([a, b, c, d, 1, 2], { datum, dot });
        const origin = applyTo(matrix, { x: 0, y: 0 });
        const right = applyTo(matrix, { x: 1, y: 0 });
        const down = applyTo(matrix, { x: 0, y: 1 });
        expect(Math.hypot(right.x - origin.x, right.y - origin.y)).toBeCloseTo(dot, 9);
        expect(Math.hypot(down.x - origin.x, down.y - origin.y)).toBeCloseTo(dot, 9);
        // Never in a mirror.
        const [p, q, r, s] = matrix;
        expect(p * s - q * r).toBeGreaterThan(0);
      }),
    );
  });

  test('the datum is a whole number of dots from the corner', () => {
    // 2.03 mm are 20.3 dots of a tenth of a millimetre: 20 of them are meant.
    const { matrix } = layLattice([1, 0, 0, 1, 0, 0], { datum: { x: 2.03, y: -0.26 }, dot });
    expect(matrix[4]).toBeCloseTo(2, 12);
    expect(matrix[5]).toBeCloseTo(-0.3, 12);
  });
});

describe('one picture for several stretches', () => {
  test('two stretches a whole repeat apart lie on the same dots', () => {
    const stretches = [
      { start: 5, length: 20 },
      { start: 105, length: 20 },
    ];
    const { picture, places } = planCover(stretches, { period: 100, overlap: 8, step: 1 });
    expect(picture).toEqual({ start: 5, length: 20 });
    expect(places).toEqual([[5], [105]]);
  });

  test('every dot is covered by the dot that belongs there, none twice without need', () => {
    const stretch = fc.record({
      start: fc.integer({ min: -5000, max: 5000 }),
      length: fc.integer({ min: 1, max: 3000 }),
    });
    fc.assert(
      fc.property(
        fc.array(stretch, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 3, max: 2000 }),
        fc.integer({ min: 1, max: 600 }),
        (stretches, period, step) => {
          const overlap = 16;
          const { picture, places } = planCover(stretches, { period, overlap, step });
          expect(picture.length).toBeLessThanOrEqual(Math.ceil(step / period) * period + overlap);
          stretches.forEach(({ start, length }, i) => {
            const at = places[i] ?? [];
            for (const place of at) expect(Math.abs((place - picture.start) % period)).toBe(0);
            expect(at[0]).toBeLessThanOrEqual(start);
            expect((at.at(-1) ?? 0) + picture.length).toBeGreaterThanOrEqual(start + length);
            for (let k = 1; k < at.length; k++) {
              const gap = (at[k] ?? 0) - (at[k - 1] ?? 0);
              expect(gap).toBeLessThanOrEqual(picture.length - overlap);
            }
          });
        },
      ),
    );
  });
});
