import { formatLength } from '@gaugerod/core';
import { expect, test } from 'vitest';

test.each([
  [67, '67 mm'],
  [9900, '9.9 m'],
  [1000, '1 m'],
  [43956, '43.96 m'],
  [119.38, '119.4 mm'],
  [0.372001, '0.372 mm'],
  [0.0423333, '0.04233 mm'],
  [100, '100 mm'],
  [123456, '123.5 m'],
  [0, '0 mm'],
])('%f mm is worded %s', (mm, text) => {
  expect(formatLength(mm)).toBe(text);
});
