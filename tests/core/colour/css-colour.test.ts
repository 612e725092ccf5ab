import { describe, expect, test } from 'vitest';
import { colourNames } from '../../../packages/core/src/colour/colour-names.js';
import { parseCssColour } from '../../../packages/core/src/colour/css-colour.js';

// CSS Color Module Level 4: the examples of its sections, worked out there.
test.each([
  ['lime', '#00ff00'], // 6.1
  ['RebeccaPurple', '#663399'], // 6.1
  ['#0f0', '#00ff00'], // 5.2
  ['#00F', '#0000ff'],
  ['#0f08', '#00ff00'], // alpha is left out
  ['#00ff0080', '#00ff00'],
  ['rgb(0, 255, 0)', '#00ff00'], // 5.1
  ['rgb(0%, 100%, 0%)', '#00ff00'],
  ['rgb(0 255 0 / 50%)', '#00ff00'],
  ['rgba(51, 170, 51, .4)', '#33aa33'],
  ['rgb(300, -20, 127.5)', '#ff0080'], // clamped, 5.1
  ['hsl(120, 100%, 50%)', '#00ff00'], // 7
  ['hsl(120deg 75% 25%)', '#107010'], // 7: a dark green
  ['hsl(0.5turn 100% 50%)', '#00ffff'],
  ['hsla(-120, 100%, 50%, 1)', '#0000ff'],
  ['hwb(150 20% 10%)', '#33e68c'], // 8: the same as hsl(150 77.78% 55%)
  ['hwb(45 40% 80%)', '#555555'], // 8: 40 / (40 + 80) of white
  [' firebrick ', '#b22222'],
])('%s is the colour %s', (text, colour) => {
  expect(parseCssColour(text)).toBe(colour);
});

describe('what is no colour', () => {
  test.each([
    '',
    'none',
    'brick',
    '#12',
    '#12345',
    '#zzz',
    'rgb(1,2)',
    'rgb(1,2,3,4,5)',
    'rgb(1deg 2 3)',
    'hsl(1% 2% 3%)',
    'hsl(1e999 50% 50%)',
    'hwb(-1e999turn 20% 10%)',
    'url(#a)',
    'var(--wall)',
    'constructor',
    'rgb(1e999e 0 0)',
  ])('%s', (text) => {
    expect(parseCssColour(text)).toBeNull();
  });
});

test('CSS names 148 colours, seven greys of them in two spellings', () => {
  expect(colourNames.size).toBe(148);
  const greys = [...colourNames].filter(([name]) => name.includes('gray'));
  expect(greys).toHaveLength(7);
  for (const [name, value] of greys) {
    expect(colourNames.get(name.replace('gray', 'grey'))).toBe(value);
  }
});
