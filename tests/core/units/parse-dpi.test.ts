import { parseDpi } from '@gaugerod/core';
import { expect, test } from 'vitest';

test.each([
  ['600', 600],
  ['600dpi', 600],
  [' 720 dpi ', 720],
  ['10', 10],
  ['4800', 4800],
  ['599.5', 599.5],
])('%j is %f dots per inch', (text, value) => {
  expect(parseDpi(text)).toBe(value);
});

test('blanks within are told apart from noise in one pass', () => {
  expect(() => parseDpi(`600${' '.repeat(1e6)}x`)).toThrow(/^expected dots per inch/);
  expect(parseDpi(`600${' '.repeat(1e6)}dpi`)).toBe(600);
});

test.each(['', '0', '9', '4801', '-600', '6e2', '0x258', '600x600', '６００', 'NaN', 'dpi'])(
  '%j is not a print resolution',
  (text) => {
    expect(() => parseDpi(text)).toThrow(
      /^expected dots per inch from 10 to 4800, such as 600, for --dpi, got "/,
    );
  },
);
