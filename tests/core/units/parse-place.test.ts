import { describe, expect, test } from 'vitest';
import {
  parseOffset,
  parsePlace,
  parsePlaces,
  parseSigned,
} from '../../../packages/core/src/units/parse-place.js';

// 1 in = 25.4 mm exactly (International Yard and Pound Agreement, 1959).
test.each([
  ['2mm', 2],
  ['1in', 25.4],
  ['7', 7],
  ['0', 0],
  ['0.0', 0],
  ['0.00mm', 0],
  ['0cm', 0],
  ['0 m', 0],
  ['0in', 0],
  ['0ft', 0],
])('%s to one side is %f mm', (text, mm) => {
  expect(parseOffset(text, '--gap')).toBe(mm);
  expect(parseSigned(text, '--gap')).toBe(mm);
  // Nobody is told of minus nought.
  expect(parseSigned(`-${text}`, '--gap')).toBe(mm === 0 ? 0 : -mm);
});

test.each(['', '-', '--2', '+2', '0x', 'x0', '0.', '0  mm', '0km', '2mm 3mm', '-0.5-'])(
  '%j is no length to either side',
  (text) => {
    expect(() => parseSigned(text, '--gap')).toThrow(/^expected a length.* for --gap, got "/);
  },
);

test('no length may be told, but none that lies the other way', () => {
  expect(() => parseOffset('-2mm', '--gap')).toThrow(/^expected a length.* for --gap, got "-2mm"$/);
});

describe('a place', () => {
  test.each([
    ['120,-5', { x: 120, y: -5 }],
    ['1.2m,0', { x: 1200, y: 0 }],
    [' -1in , 2cm ', { x: -25.4, y: 20 }],
  ])('%j is two lengths', (text, place) => {
    expect(parsePlace(text, '--datum')).toEqual(place);
  });

  test.each(['', '120', '120,5,7', '120,5,'])('%j is none', (text) => {
    expect(() => parsePlace(text, '--datum')).toThrow(
      `expected a place such as 120,0 for --datum, got "${text}"`,
    );
    expect(() => parsePlace(text, '--datum', 'where it lies')).toThrow(
      `expected where it lies for --datum, got "${text}"`,
    );
  });

  test.each([',5', '120,', '120,five'])('%j wants a length', (text) => {
    expect(() => parsePlace(text, '--datum')).toThrow(/^expected a length.* for --datum, got "/);
  });
});

describe('several places', () => {
  const wish = { least: 2, example: 'points such as "0,0 120,0"' };

  test('stand with blanks between them', () => {
    const places = [
      { x: 0, y: 0 },
      { x: 120, y: 0 },
      { x: 120, y: -80 },
    ];
    expect(parsePlaces('  0,0 120,0 \n 120,-80 ', '--shape', wish)).toEqual(places);
    expect(parsePlaces('0,0 120,0', '--shape', wish)).toEqual(places.slice(0, 2));
  });

  test.each(['', '0,0', '0,0 120', '0,0 120,0,0', '0,0,120,0', '120 0,0 1,1'])(
    '%j are too few, or no places',
    (text) => {
      expect(() => parsePlaces(text, '--shape', wish)).toThrow(
        `expected points such as "0,0 120,0" for --shape, got ${JSON.stringify(text)}`,
      );
    },
  );
});
