import { parseStatedLength } from '@gaugerod/core';
import { expect, test } from 'vitest';

// 1 in = 25.4 mm exactly (International Yard and Pound Agreement, 1959).
test.each([
  ['1981mm+-3mm', 1981, 3],
  ['1981±3mm', 1981, 3],
  ['1981mm ± 3', 1981, 3],
  ['1.981m +/- 3mm', 1981, 3],
  ['6ft6in+-1/8in', 1981.2, 3.175],
  ['3.6m±0.01', 3600, 10],
  ['3.6m +- 0.5%', 3600, 18],
  ['3600+-18', 3600, 18],
])('%s is a length and how far it may be off', (text, length, tolerance) => {
  const stated = parseStatedLength(text);
  expect(stated.length).toBeCloseTo(length, 9);
  expect(stated.tolerance).toBeCloseTo(tolerance, 9);
});

test('a bare length states no tolerance', () => {
  expect(parseStatedLength('2.4m')).toEqual({ length: 2400 });
});

test.each(['1m+-', '+-3mm', '1m+-2m', '1m+-0mm', '1m±1m', '1m+-3mm+-3mm', '1m+-100%', '1m-3mm'])(
  '%s is refused',
  (text) => {
    expect(() => parseStatedLength(text, '--length')).toThrow(/^expected .* for --length, got "/);
  },
);

test('a hundred thousand blanks are refused at once', () => {
  const many = ' '.repeat(1e5);
  for (const text of [`1m${many}x`, `1m +${many}x`, many]) {
    expect(() => parseStatedLength(text)).toThrow(/^expected /);
  }
});
