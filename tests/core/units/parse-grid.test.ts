import { describe, expect, test } from 'vitest';
import { parseGrid } from '../../../packages/core/src/units/parse-grid.js';
import { parseTimes } from '../../../packages/core/src/units/parse-times.js';

describe('columns and rows', () => {
  test.each([
    ['2x3', { x: 2, y: 3 }],
    ['2X3', { x: 2, y: 3 }],
    ['2×3', { x: 2, y: 3 }],
    ['  12 x  034 ', { x: 12, y: 34 }],
    ['0x999', { x: 0, y: 999 }],
  ])('%j', (text, grid) => {
    expect(parseGrid(text, '--panes')).toEqual(grid);
  });

  test.each([
    '',
    '2',
    '2x',
    'x3',
    '2x3x4',
    '2*3',
    '-2x3',
    '2.5x3',
    '1000x1',
    '1x1000',
    'a2x3',
    '2x3a',
    '2xx3',
  ])('%j are none', (text) => {
    expect(() => parseGrid(text, '--panes')).toThrow(
      `expected columns and rows such as 2x3 for --panes, got "${text}"`,
    );
  });
});

describe('how many times', () => {
  test.each([
    ['4x3', { x: 4, y: 3 }],
    ['1.5×1', { x: 1.5, y: 1 }],
    ['100X100', { x: 100, y: 100 }],
    ['1.000001x001.5', { x: 1.000001, y: 1.5 }],
  ])('%j', (text, times) => {
    expect(parseTimes(text, '--times')).toEqual(times);
  });

  test.each([
    '',
    '4',
    '4x',
    'x3',
    '4x3x2',
    '0.9x4',
    '4x0.9',
    '100.1x4',
    '4x100.1',
    '4 x 3',
    'a4x3',
    '4x3a',
    '1.x4',
    '4x1.',
    '1.0000001x4',
    '4x1.0000001',
    '0004x4',
    '4x0004',
    '-4x3',
  ])('%j is none', (text) => {
    expect(() => parseTimes(text, '--times')).toThrow(
      `expected times across and down, 1 to 100 each, such as 4x3 for --times, got "${text}"`,
    );
  });
});
