import { describe, expect, test } from 'vitest';
import {
  parseBar,
  parseFactor,
  parseKept,
  parsePercent,
  parseShare,
  parseWhole,
} from '../../../packages/core/src/units/parse-number.js';

// Each takes what the help of its options says, and nothing that Number() or parseFloat() would make a number of.
const never = [
  '',
  ' ',
  '-1',
  '+1',
  '1e0',
  '0x1',
  'NaN',
  'Infinity',
  '1,5',
  '1.2.3',
  'one',
  '٣',
  ' 1',
  '1 ',
];

interface Kind {
  readonly parse: (text: string) => number;
  readonly taken: readonly (readonly [string, number])[];
  readonly refused: readonly string[];
  readonly says: string;
}

const kinds: Record<string, Kind> = {
  'a strength': {
    parse: (text) => parseShare(text, '--weather'),
    taken: [
      ['0', 0],
      ['0.3', 0.3],
      ['.3', 0.3],
      ['1.', 1],
      ['1', 1],
      ['001', 1],
      ['1.000000000', 1],
      ['0.123456789', 0.123456789],
      ['.123456789', 0.123456789],
    ],
    refused: ['1.1', '2', '.', '0001', '0.1234567890', '.1234567890', 'x.3', '.3x', '0.3x', 'x0.3'],
    says: 'a number from 0 to 1 for --weather',
  },
  'a whole number': {
    parse: (text) => parseWhole(text, '--jobs', { most: 12 }),
    taken: [
      ['1', 1],
      ['12', 12],
      ['0000000012', 12],
    ],
    refused: ['0', '13', '1.5', '1.0', '00000000012', 'x2', '2x'],
    says: 'a whole number from 1 to 12 for --jobs',
  },
  'a whole number from elsewhere': {
    parse: (text) => parseWhole(text, '--seed', { least: 0, most: 9_999_999_999 }),
    taken: [
      ['0', 0],
      ['9999999999', 9_999_999_999],
    ],
    refused: ['10000000000'],
    says: 'a whole number from 0 to 9999999999 for --seed',
  },
  'a share in per cent': {
    parse: (text) => parsePercent(text, '--dot-gain', { least: 5, most: 40 }),
    taken: [
      ['18%', 0.18],
      ['18 %', 0.18],
      ['5%', 0.05],
      ['40%', 0.4],
      ['18.25%', 0.1825],
      ['012.3456%', 0.123456],
    ],
    refused: ['18', '4.9%', '40.1%', '18  %', '18%%', 'x18%', '18%x', '0018%', '18.12345%', '18.%'],
    says: '5 to 40 % (such as 22.5%) for --dot-gain',
  },
  'what is made more or less of': {
    parse: (text) => parseFactor(text, '--relief'),
    taken: [
      ['0', 0],
      ['1.2', 1.2],
      ['2', 2],
      ['02.0000', 2],
      ['1.1234', 1.1234],
    ],
    refused: ['2.1', '3', '1.', '.5', '1.12345', '002', 'x1', '1x'],
    says: 'a number from 0 to 2 for --relief',
  },
  'a bar of 100 mm': {
    parse: (text) => parseBar(text, '--printer-x'),
    taken: [
      ['99.4', 99.4],
      ['99.4mm', 99.4],
      ['100 mm', 100],
      ['90', 90],
      ['110', 110],
      ['99.1234', 99.1234],
    ],
    refused: [
      '89.9',
      '110.1',
      '9',
      '0100',
      '99.',
      '99.12345',
      '99.4 cm',
      '99.4  mm',
      'x99',
      '99x',
      '99mmm',
    ],
    says: 'what a bar of 100 mm measures on paper, 90 to 110, for --printer-x',
  },
  'how much is kept': {
    parse: (text) => parseKept(text, '--keep'),
    taken: [
      ['60', 60],
      ['60%', 60],
      ['1', 1],
      ['100%', 100],
      ['33.333333333', 33.333333333],
    ],
    refused: ['0', '0.9', '100.1', '60 %', '60%%', '0060', '60.', '1.1234567890', 'x60', '60x'],
    says: '1 to 100 per cent for --keep',
  },
};

describe.each(Object.entries(kinds))('%s', (_, { parse, taken, refused, says }) => {
  test.each(taken)('%j is %f', (text, value) => {
    expect(parse(text)).toBeCloseTo(value, 12);
  });

  test.each([...new Set([...never, ...refused])])('%j is none', (text) => {
    expect(() => parse(text)).toThrow(RangeError);
    expect(() => parse(text)).toThrow(`expected ${says}, got "${text}"`);
  });
});
