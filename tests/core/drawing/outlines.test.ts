import { expect, test } from 'vitest';
import { readDrawing } from '../../../packages/core/src/drawing/read-drawing.js';
import {
  type DrawnOutline,
  takeOutline,
} from '../../../packages/core/src/drawing/outline/take-outline.js';

const head = 'width="100mm" height="80mm" viewBox="0 0 100 80"';

function take(inner: string, id?: string, more = head): ReturnType<typeof takeOutline> {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${more}>${inner}</svg>`;
  return takeOutline(readDrawing(text), { tolerance: 0.001, ...(id !== undefined && { id }) });
}

function taken(inner: string, id?: string, more = head): DrawnOutline {
  const outcome = take(inner, id, more);
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value;
}

function refused(inner: string, id?: string, more = head): string {
  const outcome = take(inner, id, more);
  if (outcome.ok) throw new Error('taken');
  return `${outcome.message} (${outcome.hint ?? ''})`;
}

function boxOf({ loops }: DrawnOutline): number[] {
  const xs = loops.flatMap((loop) => [...loop.filter((_, i) => i % 2 === 0)]);
  const ys = loops.flatMap((loop) => [...loop.filter((_, i) => i % 2 === 1)]);
  const box = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  return box.map((value) => Math.round(value * 1000) / 1000);
}

// By shoelace; loops that run the other way take away.
function areaOf({ loops }: DrawnOutline): number {
  let twice = 0;
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i += 2) {
      const j = (i + 2) % loop.length;
      twice += loop[i]! * loop[j + 1]! - loop[j]! * loop[i + 1]!;
    }
  }
  return Math.abs(twice) / 2;
}

test.each([
  // CSS Values and Units 3, 6.2: 1in = 96px = 72pt = 6pc = 25.4mm = 101.6q.
  ['width="4in" height="3in"', '<rect width="96" height="48"/>', [0, 0, 25.4, 12.7]],
  [
    'width="10cm" height="8cm" viewBox="0 0 50 40"',
    '<rect x="5" width="10" height="5"/>',
    [10, 0, 30, 10],
  ],
  [
    'width="72pt" height="6pc" viewBox="0 0 1 1"',
    '<rect width="1" height="1"/>',
    [0, 0, 25.4, 25.4],
  ],
  [
    'width="400q" height="100mm" viewBox="-50 -50 100 100"',
    '<rect width="1" height="1"/>',
    [50, 50, 51, 51],
  ],
  // SVG 2, 7.8: a viewBox of another shape is set in the middle, all of it shown.
  [
    'width="100mm" height="50mm" viewBox="0 0 10 10"',
    '<rect width="10" height="10"/>',
    [25, 0, 75, 50],
  ],
  [
    'width="100mm" height="50mm" viewBox="0 0 10 10" preserveAspectRatio="none"',
    '<rect width="10" height="10"/>',
    [0, 0, 100, 50],
  ],
  // One side stated; the other follows by the viewBox.
  ['width="100mm" viewBox="0 0 200 160"', '<rect width="20" height="20"/>', [0, 0, 10, 10]],
  // Shares of the viewport.
  [head, '<rect x="10%" y="50%" width="50%" height="25%"/>', [10, 40, 60, 60]],
])('an outline is taken at its size on paper: %s', (more, inner, box) => {
  expect(boxOf(taken(inner, undefined, more))).toEqual(box);
});

test.each([
  ['translate(10 20) scale(2)', [10, 20, 30, 30]],
  ['rotate(90)', [-5, 0, 0, 10]],
  ['matrix(0 2 -1 0 50 0)', [45, 0, 50, 20]],
  ['skewX(45)', [0, 0, 15, 5]],
])('transforms of it and around it are done: %s', (transform, box) => {
  expect(boxOf(taken(`<g transform="${transform}"><rect width="10" height="5"/></g>`))).toEqual(
    box,
  );
  expect(boxOf(taken(`<rect transform="${transform}" width="10" height="5"/>`))).toEqual(box);
});

test('an outline that is used shows where it is used, in the viewBox of a symbol too', () => {
  const symbol = '<symbol id="s" viewBox="0 0 10 10"><rect id="r" width="10" height="5"/></symbol>';
  const inner = `<defs>${symbol}</defs><use xlink:href="#s" x="5" y="6" width="20" height="20"/>`;
  expect(boxOf(taken(inner))).toEqual([5, 6, 25, 16]);
  expect(taken(inner, 's').id).toBe('r');
});

// Areas by the formulas of a circle, an ellipse and a parabola.
test.each([
  ['<circle cx="50" cy="40" r="30"/>', Math.PI * 900],
  ['<ellipse cx="50" cy="40" rx="30" ry="20"/>', Math.PI * 600],
  ['<path d="M20 40a30 30 0 0 1 60 0a30 30 0 1 1-60 0z"/>', Math.PI * 900],
  ['<path d="M20 40a30 20 0 1060 0a30 20 0 10-60 0z"/>', Math.PI * 600],
  // A segment of a parabola is two thirds of its control triangle (Archimedes).
  ['<path d="M0 0Q30 60 60 0z"/>', (2 / 3) * 1800],
  // A second segment goes on below the line and takes away as much.
  ['<path d="M0 0q15 30 30 0t30 0z"/>', 0],
  ['<path d="M0 0h10v10h-10z m20 0h10v10h-10z"/>', 200],
  // 20 x 10 less the corners that a radius of 2 rounds: (4 - pi) 4.
  ['<rect width="20" height="10" rx="2"/>', 200 - (4 - Math.PI) * 4],
  ['<rect width="20" height="10" ry="2"/>', 200 - (4 - Math.PI) * 4],
  ['<polygon points="0,0 10,0 10,10"/>', 50],
  ['<polyline points="0 0 10 0 10 10"/>', 50],
])('%s bounds its area', (inner, area) => {
  expect(Math.abs(areaOf(taken(inner)) - area)).toBeLessThan(0.2);
});

test('a curve is followed to well within a tenth of a dot', () => {
  // At 600 dpi a dot is 0.0423 mm; asked for 0.001.
  const { loops } = taken('<path d="M10 40a30 30 0 1 0 60 0a30 30 0 1 0-60 0z"/>');
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i += 2) {
      const j = (i + 2) % loop.length;
      const middle = Math.hypot(
        (loop[i]! + loop[j]!) / 2 - 40,
        (loop[i + 1]! + loop[j + 1]!) / 2 - 40,
      );
      expect(Math.abs(Math.hypot(loop[i]! - 40, loop[i + 1]! - 40) - 30)).toBeLessThan(1e-6);
      expect(30 - middle).toBeLessThan(0.0011);
    }
  }
});

test.each([
  ['<path d="M0 0h9v9z" fill-rule="evenodd"/>', 'evenodd'],
  ['<g style="fill-rule:evenodd"><path d="M0 0h9v9z"/></g>', 'evenodd'],
  ['<style>.w{fill-rule:evenodd}</style><path class="w" d="M0 0h9v9z"/>', 'evenodd'],
  ['<g fill-rule="evenodd"><path fill-rule="nonzero" d="M0 0h9v9z"/></g>', 'nonzero'],
  ['<path d="M0 0h9v9z"/>', 'nonzero'],
])('what is inside is told by attribute, style and what is around: %s', (inner, rule) => {
  expect(taken(inner).rule).toBe(rule);
});

test('what is hidden, or has no area, is no outline', () => {
  const wall = '<rect id="wall" width="10" height="5"/>';
  const others = [
    '<rect display="none" width="3" height="3"/>',
    '<g visibility="hidden"><rect width="3" height="3"/></g>',
    '<style>.x{display:none}</style><rect class="x" width="3" height="3"/>',
    '<line x2="9" y2="9"/><path d="M0 0L9 9"/><path d="M3 3z"/><rect width="0" height="9"/>',
    '<text>wall</text>',
    '<defs><rect width="3" height="3"/></defs><clipPath id="c"><rect width="3" height="3"/></clipPath>',
  ];
  for (const other of others) expect(taken(other + wall).id).toBe('wall');
});

test('of several shapes the names are told, and one can be named', () => {
  const inner =
    '<rect id="wall" width="10" height="5"/><g id="roof"><path d="M0 0h9v9z"/></g><rect width="3" height="3"/>';
  expect(refused(inner)).toContain(
    'holds 3 shapes and a part is one: #wall, #roof, 1 without an id',
  );
  expect(refused(inner)).toContain('--outline FILE.svg#wall');
  expect(boxOf(taken(inner, 'roof'))).toEqual([0, 0, 9, 9]);
  expect(refused(inner, 'gone')).toContain(
    'holds nothing with the id gone (shapes that it shows: #wall)',
  );
  expect(refused(`<defs><path id="d" d="M0 0h9v9z"/></defs>${inner}`, 'd')).toContain(
    'shows no shape in #d',
  );
});

test('of shapes that one id means, the hint says what would work', () => {
  const pier = '<rect id="pier" width="3" height="3"/>';
  const twice = `${pier}${pier}`;
  expect(refused(twice, 'pier')).toContain('give the part an id that nothing else has');
  const used = `<defs>${pier}</defs><use href="#pier"/><use href="#pier" x="9"/>`;
  expect(refused(used, 'pier')).toContain('give the <use> that is the part an id of its own');
  const named = used.replace('<use', '<use id="left"');
  expect(refused(named, 'pier')).toContain('--outline FILE.svg#left');
  expect(boxOf(taken(named, 'left'))).toEqual([0, 0, 3, 3]);
});

const wall = '<rect width="10" height="5"/>';

test.each([
  ['no units', 'width="100" height="80"', wall, 'does not say how large it is on paper'],
  ['a viewBox alone', 'viewBox="0 0 100 80"', wall, 'does not say how large it is on paper'],
  [
    'shares of nothing',
    'width="100%" height="100%"',
    wall,
    'does not say how large it is on paper',
  ],
  ['one side in px', 'width="100mm" height="80"', wall, 'does not say how large it is on paper'],
  ['nothing', head, '', 'holds no shape that bounds an area'],
  [
    'a flat transform',
    head,
    `<g transform="scale(0 1)">${wall}</g>`,
    'holds no shape that bounds an area',
  ],
  [
    'nested flat transforms',
    head,
    `<g transform="matrix(1 1 1 1 0 0)"><g transform="rotate(9)">${wall}</g></g>`,
    'holds no shape that bounds an area',
  ],
  [
    'a transform of nonsense',
    head,
    `<g transform="spin(9)">${wall}</g>`,
    'a transform that makes no sense',
  ],
  [
    'a clip',
    head,
    `<clipPath id="c">${wall}</clipPath><g clip-path="url(#c)">${wall}</g>`,
    'clipped, masked or filtered',
  ],
  ['a script', head, `<script/>${wall}`, 'holds a script'],
  [
    'motion',
    head,
    `<rect width="10" height="5"><animate attributeName="x"/></rect>`,
    'something that moves',
  ],
  [
    'a bad viewBox',
    'width="9mm" height="9mm" viewBox="0 0 0 9"',
    wall,
    'a viewBox that makes no sense',
  ],
])('%s is refused, and said', (_, more, inner, words) => {
  expect(refused(inner, undefined, more)).toContain(words);
});

test.each([
  ['a path that breaks off', '<path d="M0 0h10v"/>', /path that makes no sense/],
  ['a path of letters', '<path d="wall"/>', /path that makes no sense/],
  ['numbers past all bounds', '<path d="M0 0H1e400V9z"/>', /reaches over 100 m/],
  ['a far corner', '<rect width="1e9" height="5"/>', /reaches over 100 m/],
  ['a size in em', '<rect width="10em" height="5"/>', /width is "10em", which is no size/],
  ['half a point', '<polygon points="0,0 10,0 10"/>', /polygon whose points make no sense/],
  ['a use of uses without end', uses(20), /uses its own elements more often than anybody draws/],
])('%s is refused, and said', (_, inner, words) => {
  expect(() => take(inner)).toThrow(words);
});

function uses(deep: number): string {
  const groups = Array.from(
    { length: deep },
    (_, i) => `<g id="g${i + 1}"><use xlink:href="#g${i}"/><use xlink:href="#g${i}"/></g>`,
  );
  return `<rect id="g0" width="1" height="1"/>${groups.join('')}`;
}

test('a drawing of many elements is no drawing of uses without end', () => {
  const hairs = '<rect width="0" height="1"/>'.repeat(50_001);
  expect(boxOf(taken(`${hairs}<rect width="10" height="5"/>`))).toEqual([0, 0, 10, 5]);
});

test('a use of itself shows nothing, and ends', () => {
  expect(
    refused('<g id="a"><use xlink:href="#b"/></g><g id="b"><use xlink:href="#a"/></g>'),
  ).toContain('no shape');
});
