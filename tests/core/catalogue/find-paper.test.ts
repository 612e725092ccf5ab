import { findPaper } from '@gaugerod/core';
import { expect, test } from 'vitest';

test.each([
  // ISO 216: A4 and A3; ANSI/ASME Y14.1: 8.5 x 11 in, 25.4 mm to the inch.
  ['A4', { name: 'A4', width: 210, height: 297 }],
  ['a3 landscape', { name: 'A3 landscape', width: 420, height: 297 }],
  ['letter', { name: 'Letter', width: 215.9, height: 279.4 }],
  ['329x483mm', { name: null, width: 329, height: 483 }],
])('%s is known', (text, paper) => {
  const found = findPaper(text);
  expect(found.name).toBe(paper.name);
  expect(found.width).toBeCloseTo(paper.width, 9);
  expect(found.height).toBeCloseTo(paper.height, 9);
});

test.each(['', 'A9', 'foolscap', '0x0', '210', 'constructor'])('%s is refused', (text) => {
  expect(() => findPaper(text, '--paper')).toThrow(/^expected .* for --paper, got /);
});
