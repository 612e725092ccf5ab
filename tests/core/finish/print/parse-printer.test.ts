import { NewerPrinter, parsePrinter } from '@gaugerod/core';
import { expect, test } from 'vitest';

// Two corners a side: black is sent as a grey of 40, all else as it is meant.
const levels = [
  [40, 40, 40],
  [40, 40, 255],
  [40, 255, 40],
  [40, 255, 255],
  [255, 40, 40],
  [255, 40, 255],
  [255, 255, 40],
  [255, 255, 255],
].flat();

const whole = {
  schema: 'gaugerod.printer/1',
  strip: 1,
  darkest: 20,
  inkLimitPercent: 240,
  offBefore: 9,
  offAfter: 1,
  metPercent: 80,
  unsteady: 0.4,
  table: { size: 2, levels },
};

function withLevels(change: (levels: unknown[]) => unknown[]): object {
  return { ...whole, table: { size: 2, levels: change([...levels]) } };
}

test('a whole profile is read', () => {
  const { table, darkest } = parsePrinter(JSON.stringify(whole));
  expect(darkest).toBe(20);
  expect(Array.from(table.values, (level) => Math.round(255 * level))).toEqual(levels);
});

test.each<readonly [string, object | string, RegExp]>([
  ['no JSON', '{"schema":', /no JSON/],
  ['no object', '[]', /expected an object/],
  ['another file of ours', { schema: 'gaugerod.surface/1' }, /gaugerod\.printer\/1/],
  ['no table', { ...whole, table: null }, /table/],
  ['a table of no corners', { ...whole, table: { size: 1, levels: [] } }, /table\.size/],
  ['a table of too many', { ...whole, table: { size: 1e6, levels: [] } }, /table\.size/],
  ['a level too few', withLevels((some) => some.slice(1)), /a list of 24/],
  ['a level that is none', withLevels((some) => some.with(3, null)), /a list of 24/],
  ['a level below black', withLevels((some) => some.with(0, -1)), /0 to 255/],
  ['a level above white', withLevels((some) => some.with(14, 256)), /0 to 255/],
  ['ink on white', withLevels((some) => some.with(21, 254)), /bare paper/],
  [
    'less light where more is asked for',
    withLevels((some) => some.with(0, 255).with(12, 90)),
    /falls/,
  ],
  ['a lightness of more than paper', { ...whole, darkest: 101 }, /darkest/],
  ['more than all ink', { ...whole, inkLimitPercent: 301 }, /inkLimitPercent/],
])('a profile with %s is refused', (_, file, message) => {
  const text = typeof file === 'string' ? file : JSON.stringify(file);
  expect(() => parsePrinter(text)).toThrow(message);
});

test('a profile of a later version is told apart from a broken one', () => {
  const text = JSON.stringify({ ...whole, schema: 'gaugerod.printer/2' });
  expect(() => parsePrinter(text)).toThrow(NewerPrinter);
});
