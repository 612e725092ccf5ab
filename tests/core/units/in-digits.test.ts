import { inDigits, uncertaintyInWords } from '@gaugerod/core';
import { expect, test } from 'vitest';

// Rounded by hand; halves away from nought (ISO 80000-1, B.3, rule B), as people round.
test.each([
  [0, 4, '0'],
  [1.2, 4, '1.2'],
  [0.37206, 4, '0.3721'],
  [4000, 4, '4000'],
  // Whole parts are never cut.
  [123_456, 4, '123456'],
  [123_456.7, 4, '123457'],
  [999.96, 4, '1000'],
  [0.000_123_45, 2, '0.00012'],
  [5.55, 2, '5.6'],
  [1.005, 3, '1.01'],
  [-5.55, 2, '-5.6'],
  [-0.25, 1, '-0.3'],
  [10, 2, '10'],
  [9.99, 2, '10'],
  [99, 1, '99'],
  [1, 1, '1'],
])('%f in %d digits is %s', (value, count, text) => {
  expect(inDigits(value, count)).toBe(text);
});

test('four digits count unless told', () => {
  expect(inDigits(23.250_49)).toBe('23.25');
  expect(inDigits(1e-30)).toBe('0');
});

test('an uncertainty is told in two digits of the three that are reported', () => {
  // 1.0949 is reported as 1.09, which reads 1.1; 0.08349 as 0.0835, which reads 0.084.
  expect(uncertaintyInWords(1.0949)).toBe('1.1');
  expect(uncertaintyInWords(0.083_49)).toBe('0.084');
  expect(uncertaintyInWords(12.34)).toBe('12');
});
