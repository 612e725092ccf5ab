import { parsePoint } from '@gaugerod/core';
import { expect, test } from 'vitest';

test.each([
  ['120,80', 120, 80],
  ['0,0', 0, 0],
  ['0.5, 1023.25', 0.5, 1023.25],
])('%j is a point', (text, x, y) => {
  expect(parsePoint(text)).toEqual({ x, y });
});

test.each(['', ',', '1', '1,', '1,2,3', '1;2', '-1,2', '1e2,3', '0x1,2', '１,２', '1 2', 'NaN,1'])(
  '%j is not a point',
  (text) => {
    expect(() => parsePoint(text, '--span')).toThrow(
      /^expected a point such as 120,80 for --span, got "/,
    );
  },
);
