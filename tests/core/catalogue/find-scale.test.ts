import { findScale, searchCatalogue } from '@gaugerod/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

// NEM 010 (MOROP, 2011 edition): ratio and standard gauge, mm.
const nem010 = [
  ['Z', 220, 6.5],
  ['N-EU', 160, 9],
  ['TT-EU', 120, 12],
  ['H0', 87, 16.5],
  ['S', 64, 22.5],
  ['0-EU', 45, 32],
  ['I', 32, 45],
  ['II', 22.5, 64],
  ['III', 16, 89],
  ['V', 11, 127],
  ['VII', 8, 184],
  ['X', 5.5, 260],
] as const;

describe('NEM 010', () => {
  test.each(nem010)('%s is 1:%f on %f mm', (name, ratio, gauge) => {
    expect(findScale(name).ratio).toBe(ratio);
    expect(searchCatalogue(name).find(({ id }) => id === name)?.sizesMm['gauge']).toBe(gauge);
  });

  test.each(nem010)('the gauge of %s at 1:%f is standard gauge, or near it', (_, ratio, gauge) => {
    // 1435 mm; the standard rounds to common track, V and VII by up to 2.7 %.
    expect(Math.abs((gauge * ratio) / 1435 - 1)).toBeLessThan(0.027);
  });

  test.each([
    ['H0m', 87],
    ['H0e', 87],
    ['0m', 45],
    ['0e', 45],
    ['IIm', 22.5],
    ['Nm', 160],
    ['TTe', 120],
    ['H0f', 87],
    ['Ii', 32],
    ['H0p', 87],
  ])('a narrow-gauge letter changes the gauge, never the ratio: %s', (name, ratio) => {
    expect(findScale(name).ratio).toBe(ratio);
  });
});

// 1 ft = 304.8 mm exactly; mm or fractions of an inch to the foot by NMRA S-1.2 (as public tables
// quote it) and British custom.
const toTheFoot = [
  ['HO', '3.5mm/ft', 609.6 / 7],
  ['O-US', '1/4in/ft', 48],
  ['S-US', '3/16 in = 1 ft', 64],
  ['TT-US', '0.1 in to the foot', 120],
  ['O17', '17/64in/ft', 45.1764705882],
  ['17/64', '17/64in/ft', 45.1764705882],
  ['1-US', '3/8in/ft', 32],
  ['N-UK-nominal', '2 1/16mm/ft', 1625.6 / 11],
  ['2mm', '2mm/ft', 152.4],
  ['2mm finescale', '2mm per foot', 152.4],
  ['3mm', '3mm/ft', 101.6],
  ['TT3', '3mm/ft', 101.6],
  ['TM', '3mm/ft', 101.6],
  ['S3', '3mm/ft', 101.6],
  ['OO', '4mm/ft', 76.2],
  ['EM', '4mm/ft', 76.2],
  ['P4', '4mm/ft', 76.2],
  ['S4', '4mm/ft', 76.2],
  ['O-UK', '7mm/ft', 304.8 / 7],
  ['1-UK-10mm', '10mm/ft', 30.48],
  ['SM32', '16mm/ft', 19.05],
  ['SM45', '16mm/ft', 19.05],
  ['Fn3', '15mm/ft', 20.32],
  ['2-UK', '7/16in/ft', 27.4285714286],
  ['3-UK-24', '1/2in/ft', 24],
  ['3-UK-13.5mm', '13.5mm/ft', 22.5777777778],
  ['N-JP', '0.08in/ft', 150],
] as const;

test.each(toTheFoot)('%s is %s is 1:%f', (name, length, ratio) => {
  expect(Math.abs(findScale(name).ratio / ratio - 1)).toBeLessThan(1e-9);
  expect(Math.abs(findScale(length).ratio / ratio - 1)).toBeLessThan(1e-9);
});

test.each([
  // From the exact foot, to four decimals.
  [220, 1.3855],
  [160, 1.905],
  [150, 2.032],
  [148, 2.0595],
  [120, 2.54],
  [87, 3.5034],
  [64, 4.7625],
  [48, 6.35],
  [45, 6.7733],
  [32, 9.525],
])('1:%f is %f mm to the foot', (ratio, foot) => {
  const scale = searchCatalogue('scale').find((entry) => entry.ratio === ratio);
  expect(Math.abs((scale?.sizesMm['foot'] ?? 0) - foot)).toBeLessThan(5e-5);
});

test('the British finescale gauges come to standard gauge', () => {
  // 18.83 mm x 76.2 = 1434.8; 9.42 mm x 152.4 = 1435.6 (public tables of British scales).
  for (const id of ['P4', 'S4', '2mm']) {
    const entry = searchCatalogue(id).find((found) => found.id === id);
    const gauge = (entry?.sizesMm['gauge'] ?? 0) * (entry?.ratio ?? 0);
    expect(Math.abs(gauge - 1435)).toBeLessThan(1);
  }
});

test('British N is as sold, and says so; the nominal scale is another entry', () => {
  // 1:148 as sold; 2 1/16 mm to the foot is 147.7818, 0.1476 % from it.
  expect(findScale('N-UK')).toMatchObject({ name: 'N-UK', ratio: 148, region: 'UK' });
  const nominal = findScale('N-UK-nominal');
  expect(nominal.name).toBe('N-UK-nominal');
  expect(148 / nominal.ratio - 1).toBeCloseTo(0.001476, 6);
});

test('a ratio stays as typed, and has no name', () => {
  for (const text of ['1:76', '1/76', '1 : 76', ' 1:76.0 ', '1/76 scale', 'scale 1:76']) {
    expect(findScale(text)).toMatchObject({ name: null, ratio: 76, region: null });
  }
  fc.assert(
    fc.property(fc.double({ min: 1, max: 10_000, noNaN: true }), (ratio) => {
      const text = ratio.toFixed(6);
      expect(findScale(`1:${text}`).ratio).toBe(Number(text));
    }),
  );
});

describe('a name that means several scales is refused with its choices', () => {
  test.each([
    ['N', ['N-EU (1:160)', 'N-UK (1:148)', 'N-JP (1:150)', 'N-US (1:160)']],
    ['n gauge', ['N-EU (1:160)', 'N-UK (1:148)']],
    ['O', ['O-US (1:48)', '0-EU (1:45)', 'O-UK (1:43.5429)', 'O-FR (1:43.5)']],
    ['0', ['O-US (1:48)', '0-EU (1:45)', 'O-UK (1:43.5429)']],
    ['TT', ['TT-EU (1:120)', '3mm (1:101.6)']],
    ['TT-UK', ['TT-UK-120 (1:120)', '3mm (1:101.6)']],
    ['1', ['I (1:32)', '1-UK-10mm (1:30.48)']],
    ['Gauge 1', ['I (1:32)', '1-UK-10mm (1:30.48)']],
    ['2', ['II (1:22.5)', '2-UK (1:27.4286)']],
    ['3', ['III (1:16)', '3-UK-24 (1:24)', '3-UK-13.5mm (1:22.5778)']],
    ['G', ['1:22.5', '1:20.32', '1:24', '1:29', '1:32']],
    ['000', ['2mm (1:152.4)', 'N-EU (1:160)', 'N-UK (1:148)']],
    ['OOO', ['2mm (1:152.4)', 'N-EU (1:160)', 'N-UK (1:148)']],
    ['HO-JP', ['1:87', '1:80']],
  ])('%s', (name, choices) => {
    for (const choice of choices) {
      expect(() => findScale(name, { name: '--scale' })).toThrow(choice);
    }
    expect(() => findScale(name, { name: '--scale' })).toThrow(
      /^expected one of .* or a ratio for --scale, got "/,
    );
  });
});

describe('every choice that a refusal lists is itself a scale', () => {
  test.each(['N', 'O', 'TT', '1', '2', '3', 'G', 'OOO'])('%s', (name) => {
    let message = '';
    try {
      findScale(name);
    } catch (error) {
      message = String(error);
    }
    const choices = [...message.matchAll(/(\S+) \(1:([\d.]+)\)/g)];
    expect(choices.length).toBeGreaterThan(1);
    for (const [, choice = '', ratio] of choices) {
      expect(findScale(choice).ratio).toBeCloseTo(Number(ratio), 4);
    }
  });
});

test.each([
  ['N', 'UK', 148],
  ['N', 'EU', 160],
  ['N', 'US', 160],
  ['N', 'JP', 150],
  ['n', 'uk', 148],
  ['O', 'UK', 304.8 / 7],
  ['0', 'UK', 304.8 / 7],
  ['O', 'EU', 45],
  ['O', 'US', 48],
  ['O', 'FR', 43.5],
  ['N', 'FR', 160],
  ['TT', 'EU', 120],
  ['1', 'EU', 32],
])('%s is settled by the region %s', (name, region, ratio) => {
  expect(findScale(name, { region }).ratio).toBeCloseTo(ratio, 9);
  expect(findScale(`${name}-${region}`).ratio).toBeCloseTo(ratio, 9);
});

test.each([
  ['TT', 'UK'],
  ['1', 'UK'],
  ['3', 'UK'],
  ['G', 'UK'],
  ['G', 'EU'],
  ['G', 'US'],
  ['HO', 'JP'],
  ['O', 'JP'],
])('%s stays open in the region %s', (name, region) => {
  expect(() => findScale(name, { region })).toThrow(/^expected one of /);
});

test('a region wanted is not guessed from', () => {
  expect(() => findScale('N', { region: 'Mars' })).toThrow(
    'expected one of UK, EU, US, JP, FR for region, got "Mars"',
  );
});

test.each([
  ['Z', 220],
  ['z', 220],
  ['S', 64],
  ['s scale', 64],
  ['oo', 76.2],
  ['00', 76.2],
  ['em', 76.2],
  ['p4', 76.2],
  ['h0', 87],
  ['ho', 609.6 / 7],
  ['i', 32],
  ['ii', 22.5],
  ['III', 16],
  ['HOn3', 609.6 / 7],
  ['On30', 48],
  ['scale S', 64],
  ['0 EU', 45],
  ['O (US)', 48],
])('%s needs no region', (name, ratio) => {
  expect(findScale(name).ratio).toBeCloseTo(ratio, 9);
});

test.each([
  '',
  ' ',
  '1:0',
  '0:1',
  '2:1',
  '1:-5',
  '1:1e3',
  '1:0x10',
  '1:１４８',
  '1:',
  ':148',
  '1:148:2',
  '148',
  '76.2',
  '1:100000',
  '1:0.5',
  '-1:148',
  'constructor',
  '__proto__',
  'toString',
  'N-MARS',
  'Q-EU',
  'S-JP',
  'nought',
  '0mm/ft',
  '400mm/ft',
  '4/ft',
  'mm/ft',
])('%j is not a scale', (text) => {
  expect(() => findScale(text)).toThrow(RangeError);
  expect(() => findScale(text)).toThrow(/^expected .* for scale, got "/);
});

test('a slip of the finger is answered with names near it', () => {
  expect(() => findScale('NUK')).toThrow('N-UK');
  expect(() => findScale('P5')).toThrow('P4');
  expect(() => findScale('148')).toThrow('expected a ratio such as 1:148 for scale, got "148"');
});

test('any text gives a ratio or a RangeError of one line', () => {
  const glyphs = fc.string({
    unit: fc.constantFrom(...Array.from('01245:/.-NOSTHGeim UKft=')),
    maxLength: 10,
  });
  fc.assert(
    fc.property(fc.oneof(glyphs, fc.string()), (text) => {
      try {
        const { ratio } = findScale(text);
        expect(ratio >= 1 && ratio <= 10_000).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
        expect((error as RangeError).message).not.toMatch(/[\r\n]/);
      }
    }),
    { numRuns: 2000 },
  );
});

test('half a number is no scale', () => {
  // NEM 010 writes its larger sizes in Roman figures: Ie is one, 1e is a number cut short.
  expect(findScale('Ie').ratio).toBe(32);
  for (const text of ['1e', '2m', '1p']) expect(() => findScale(text)).toThrow(RangeError);
});

test('a number that nobody can read is not said back', () => {
  expect(() => findScale('7'.repeat(700))).toThrow(/^expected [^\n]{1,250}$/);
});
