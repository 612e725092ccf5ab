import { expect, test } from 'vitest';
import { boxAround } from '../../../packages/core/src/drawing/geometry/box.js';
import { findPlaces } from '../../../packages/core/src/drawing/places/find-places.js';
import type { Placement } from '../../../packages/core/src/drawing/places/placed-picture.js';
import { readDrawing } from '../../../packages/core/src/drawing/read-drawing.js';

const page = 'width="80mm" height="60mm" viewBox="0 0 80 60"';

function place(inner: string, head = page): Placement {
  return findPlaces(readDrawing(`<svg xmlns="http://www.w3.org/2000/svg" ${head}>${inner}</svg>`));
}

const image = (more = ''): string =>
  `<image x="5" y="6" width="40" height="30" href="a.png" ${more}/>`;

// Where the rectangle of each place lies on paper, in millimetres.
function onPaper({ pictures }: Placement): number[][] {
  return pictures.flatMap(({ places }) =>
    places.map(({ matrix: [a, b, c, d, e, f], rect: { x0, y0, x1, y1 } }) =>
      [a * x0 + c * y0 + e, b * x0 + d * y0 + f, a * x1 + c * y1 + e, b * x1 + d * y1 + f].map(
        (value) => Math.round(value * 1e6) / 1e6,
      ),
    ),
  );
}

// By hand, from SVG 2, 8: each row is a rectangle on paper.
test.each([
  ['a unit that is a millimetre', image(), page, [[5, 6, 45, 36]]],
  [
    'half the size',
    image(),
    'width="40mm" height="30mm" viewBox="0 0 80 60"',
    [[2.5, 3, 22.5, 18]],
  ],
  [
    'a viewBox that begins elsewhere',
    image(),
    'width="80mm" height="60mm" viewBox="-40 -30 80 60"',
    [[45, 36, 85, 66]],
  ],
  // 2 inches: 50.8 mm for 100 units.
  [
    'inches',
    image(),
    'width="2in" height="2in" viewBox="0 0 100 100"',
    [[2.54, 3.048, 22.86, 18.288]],
  ],
  // Nothing but bare numbers: 1/72 inch each, 0.352778 mm.
  ['bare numbers', image(), 'width="80" height="60"', [[1.763889, 2.116667, 15.875, 12.7]]],
  [
    'groups that move and turn',
    `<g transform="translate(10 20)"><g transform="scale(2)">${image()}</g></g>`,
    page,
    [[20, 32, 100, 92]],
  ],
  // 20 x 20 for 10 x 20 in the middle: scale 1, 5 to the right.
  [
    'an svg inside',
    `<svg x="1" y="2" width="20" height="20" viewBox="0 0 10 20"><image width="10" height="20" href="a.png"/></svg>`,
    page,
    [[6, 2, 16, 22]],
  ],
  [
    'shares',
    '<image x="10%" y="10%" width="50%" height="50%" href="a.png"/>',
    page,
    [[8, 6, 48, 36]],
  ],
  [
    'used twice',
    `<defs>${image('id="a"')}</defs><use href="#a"/><use href="#a" x="1" y="2" transform="scale(2)"/>`,
    page,
    [
      [12, 16, 92, 76],
      [5, 6, 45, 36],
    ],
  ],
  // 30 x 20 into 15 x 10 at 3, 4.
  [
    'a symbol',
    `<symbol id="s" viewBox="0 0 30 20"><image width="30" height="20" href="a.png"/></symbol><use href="#s" x="3" y="4" width="15" height="10"/>`,
    page,
    [[3, 4, 18, 14]],
  ],
  ['used through itself', `<g id="g">${image()}<use href="#g"/></g>`, page, [[5, 6, 45, 36]]],
  ['not used', `<defs>${image()}</defs>`, page, []],
] as const)('%s', (_, inner, head, rectangles) => {
  expect(onPaper(place(inner, head)).sort()).toEqual([...rectangles].map((one) => [...one]).sort());
});

function clipsOf(inner: string): number[][] {
  const [picture] = place(inner).pictures;
  const [, ...clips] = picture?.places[0]?.clips ?? [];
  return clips.map((clip) => {
    const { x0, y0, x1, y1 } = boxAround(clip);
    return [x0, y0, x1, y1].map((value) => Math.round(value * 1e6) / 1e6);
  });
}

// The first is the page.
test.each([
  ['a rectangle', '<rect x="1" y="2" width="3" height="4"/>', [[1, 2, 4, 6]]],
  ['two shapes', '<rect width="1" height="1"/><circle cx="9" cy="9" r="2"/>', [[0, 0, 11, 11]]],
  ['a shape that is moved', '<path transform="translate(5 5)" d="M0 0h2v3z"/>', [[5, 5, 7, 8]]],
  // A half circle of radius 5 from 0,0 to 10,0 goes 5 up.
  ['an arc', '<path d="M0 0A5 5 0 0 1 10 0Z"/>', [[0, -5, 10, 0]]],
  ['a polygon', '<polygon points="1,1 5,1 5,7"/>', [[1, 1, 5, 7]]],
  ['text, which could be anywhere', '<text>a</text>', []],
  ['data that breaks off', '<path d="M0 0 L hello"/>', []],
] as const)('a clip of %s bounds what shows', (_, shape, boxes) => {
  expect(
    clipsOf(`<clipPath id="c">${shape}</clipPath><g clip-path="url(#c)">${image()}</g>`),
  ).toEqual(boxes);
});

test('a clip by style or class counts as one by attribute', () => {
  const clip = '<clipPath id="c"><rect width="3" height="4"/></clipPath>';
  const box = [[0, 0, 3, 4]];
  expect(clipsOf(`${clip}<g style="clip-path:url('#c')">${image()}</g>`)).toEqual(box);
  const sheet = '<style><![CDATA[.k{clip-path:url(#c)}]]></style>';
  expect(clipsOf(`${sheet}${clip}<g class="j k">${image()}</g>`)).toEqual(box);
});

test.each([
  ['a pattern', `<pattern id="p">${image()}</pattern>`, 'pattern'],
  ['a mask that uses it', `${image('id="a"')}<mask><use href="#a"/></mask>`, 'mask'],
  ['a marker', `<marker>${image()}</marker>`, 'marker'],
  ['a filter', `${image('id="a"')}<filter><feImage href="#a"/></filter>`, 'filter'],
])('a picture in %s is known for part of it', (_, inner, inside) => {
  expect(place(inner).pictures[0]?.inside).toBe(inside);
});

test.each([
  ['a script', `<script>x()</script>${image()}`],
  ['something that runs one', `<rect onload="x()"/>${image()}`],
  ['something that moves', `${image()}<animate href="#a"/>`],
  ['a sheet that is not understood', `<style>g>image{clip-path:url(#c)}</style>${image()}`],
  ['a sheet of a medium', `<style>@media print{.a{filter:url(#f)}}</style>${image()}`],
  ['a sheet outside', `<style>@import url(a.css);</style>${image()}`],
  [
    'a sheet nested without end',
    `<style>${'a{'.repeat(50_000)}clip-path:url(#c)</style>${image()}`,
  ],
  ['a transform of CSS', image('style="transform:translate(5px,5px)"')],
  ['a transform that is none', `<g transform="twist(5)">${image()}</g>`],
  ['a size in ems', '<image width="2em" height="1em" href="a.png"/>'],
  ['two links', image('xmlns:l="http://www.w3.org/1999/xlink" l:href="b.png"')],
])('of %s nothing is taken for known', (_, inner) => {
  expect(place(inner).pictures[0]?.doubt).not.toBeNull();
});

test('of use of use, ten by ten by ten, nothing is asked but what leads to a picture', () => {
  const levels = Array.from(
    { length: 12 },
    (_, i) => `<g id="u${i + 1}">${`<use href="#u${i}"/>`.repeat(10)}</g>`,
  );
  const used = (inner: string): string =>
    `<defs><g id="u0">${inner}</g>${levels.join('')}</defs><use href="#u12"/>`;
  expect(place(used('<path d="M0 0"/>') + image()).pictures[0]?.doubt).toBeNull();
  expect(place(used(image())).pictures[0]?.doubt).toContain('uses');
});
