import { expect, test } from 'vitest';
import { parseCssColour } from '../../../packages/core/src/colour/css-colour.js';
import {
  fitView,
  parseAspect,
  parseViewBox,
} from '../../../packages/core/src/drawing/geometry/fit-view.js';
import { parseLength } from '../../../packages/core/src/drawing/geometry/parse-length.js';
import { parseTransform } from '../../../packages/core/src/drawing/geometry/parse-transform.js';

const box = (x0: number, y0: number, width: number, height: number) => ({
  x0,
  y0,
  x1: x0 + width,
  y1: y0 + height,
});

function fit(into: readonly [number, number], text: string): readonly number[] {
  const aspect = parseAspect(text);
  if (aspect === null) throw new Error(text);
  return fitView(box(0, 0, 30, 40), box(0, 0, ...into), aspect);
}

// SVG 1.1, second edition, 7.8, the example of preserveAspectRatio: viewBox="0 0 30 40" into
// rectangles of 50 x 30 and 30 x 60. By hand: meet takes the smaller of both scales, slice the larger,
// and what is over is left out before, on both sides, or behind.
test.each([
  [[50, 30], 'xMinYMid meet', [0.75, 0, 0, 0.75, 0, 0]],
  [[50, 30], 'xMidYMid meet', [0.75, 0, 0, 0.75, 13.75, 0]],
  [[50, 30], 'xMaxYMid', [0.75, 0, 0, 0.75, 27.5, 0]],
  [[30, 60], 'xMidYMin meet', [1, 0, 0, 1, 0, 0]],
  [[30, 60], 'xMidYMid meet', [1, 0, 0, 1, 0, 10]],
  [[30, 60], 'defer xMidYMax meet', [1, 0, 0, 1, 0, 20]],
  [[30, 60], 'xMinYMid slice', [1.5, 0, 0, 1.5, 0, 0]],
  [[30, 60], 'xMidYMid slice', [1.5, 0, 0, 1.5, -7.5, 0]],
  [[30, 60], 'xMaxYMid slice', [1.5, 0, 0, 1.5, -15, 0]],
  [[50, 30], 'xMidYMid slice', [5 / 3, 0, 0, 5 / 3, 0, 15 - 100 / 3]],
  [[50, 30], 'none', [5 / 3, 0, 0, 0.75, 0, 0]],
] as const)('into %j, %s', (into, text, matrix) => {
  fit(into, text).forEach((value, i) => {
    expect(value).toBeCloseTo(matrix[i] ?? NaN, 10);
  });
});

// SVG 1.1, second edition, 7.7: viewBox="0 0 1500 1000" in 300 x 200 px is a scale of 0.2; in 150 x
// 200 px with preserveAspectRatio="none", 0.1 and 0.2.
test('a viewBox is a scale', () => {
  const view = parseViewBox('0 0 1500 1000');
  if (view === null) throw new Error('no viewBox');
  const none = { x: 0, y: 0, fit: 'none' } as const;
  expect(fitView(view, box(0, 0, 300, 200), none)).toEqual([0.2, 0, 0, 0.2, 0, 0]);
  expect(fitView(view, box(0, 0, 150, 200), none)).toEqual([0.1, 0, 0, 0.2, 0, 0]);
});

test.each(['0 0 80', '0 0 NaN 60', '0 0 0 0', '0 0 -80 60', '', '0 0 1e999 1'])(
  'a viewBox of "%s" is none',
  (text) => {
    expect(parseViewBox(text)).toBeNull();
  },
);

test('a preserveAspectRatio that is none is not taken for one', () => {
  expect(parseAspect('sideways')).toBeNull();
  expect(parseAspect(undefined)).toEqual({ x: 0.5, y: 0.5, fit: 'meet' });
});

// CSS Values and Units Level 3, 6.2: 1in = 2.54cm = 25.4mm = 101.6Q = 72pt = 6pc = 96px.
test.each(['1in', '2.54cm', '25.4mm', '101.6Q', '72pt', '6pc', '96px', '96', ' 9.6e1 '])(
  '%s is 96 px',
  (text) => {
    expect(parseLength(text)?.value).toBeCloseTo(96, 10);
  },
);

test.each([
  '80,5mm',
  '20em',
  '1furlong',
  'calc(10mm + 2px)',
  '',
  '1e999',
  '1e308mm',
  '８0mm',
  '--1',
])('a length of "%s" has no size', (text) => {
  expect(parseLength(text)).toBeNull();
});

test('only units that paper has are true', () => {
  expect(['1mm', '1', '1px', '50%'].map((text) => parseLength(text)?.kind)).toEqual([
    'true',
    'px',
    'px',
    '%',
  ]);
});

// SVG 1.1, second edition, 7.5: translate(50,90), rotate(-45), translate(130,160) nested come to
// [0.707 -0.707 0.707 0.707 255.03 111.21], worked there with a sine of 0.707.
test('transforms follow one another as the specification works them out', () => {
  const matrix = parseTransform('translate(50,90) rotate(-45),translate(130 160)') ?? [];
  [0.707, -0.707, 0.707, 0.707, 255.03, 111.21].forEach((value, i) => {
    expect(Math.abs((matrix[i] ?? NaN) - value)).toBeLessThan(0.04);
  });
});

test.each([
  ['rotate(90 10 10)', [0, 1, -1, 0, 20, 0]],
  ['translate(1,2)scale(3)', [3, 0, 0, 3, 1, 2]],
  ['matrix(1-2 3-4 .5.5)', [1, -2, 3, -4, 0.5, 0.5]],
  ['skewX(45)', [1, 0, 1, 1, 0, 0]],
  ['', [1, 0, 0, 1, 0, 0]],
])('%s', (text, matrix) => {
  const got = parseTransform(text) ?? [];
  matrix.forEach((value, i) => {
    expect(got[i]).toBeCloseTo(value, 10);
  });
});

test.each([
  'matrix(1 0 0 1 5)',
  'twist(5)',
  'translate(5',
  'translate(5px, 5px)',
  'rotate(NaN)',
  'scale(1e300) scale(1e300)',
  'rotate(1 2)',
])('a transform of "%s" is none', (text) => {
  expect(parseTransform(text)).toBeNull();
});

// Gone over once for each of its characters, one of these would take days.
test.each([' ', '9', 'a', ',', '-', '('])(
  'a million times %j is read or refused at once',
  (sign) => {
    const many = sign.repeat(1e6);
    for (const text of [
      many,
      `1${many}x`,
      `translate(2,3)${many}`,
      `translate(${many}`,
      `0 0${many}`,
    ]) {
      parseTransform(text);
      parseLength(text);
      parseViewBox(text);
      parseAspect(text);
      parseCssColour(text);
    }
    expect(parseTransform(`translate(2${' '.repeat(1e6)},3)`)).toEqual([1, 0, 0, 1, 2, 3]);
  },
);
