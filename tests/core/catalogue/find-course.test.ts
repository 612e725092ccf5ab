import { findCourse } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';

// 1 in = 25.4 mm exactly. Stretcher, header: unit with one joint; course: height with one.
const formats = [
  // UK brick guides quoting BS EN 771-1 work sizes: 215 x 102.5 x 65, 10 mm joints, 4 to 300 mm.
  ['uk-metric', 225, 112.5, 75],
  // From memory of BS 657:1941: 9 x 4 1/2 in with joints; 4 courses 12 in and 13 in.
  ['uk-imperial', 228.6, 114.3, 76.2],
  ['uk-imperial-southern', 228.6, 114.3, 76.2],
  ['uk-imperial-northern', 228.6, 114.3, 82.55],
  // Two German masonry handbooks on DIN 4172: 250 x 125 mm, 12, 16 and 8 courses to 1 m.
  ['de-nf', 250, 125, 83.3333],
  ['din-nf', 250, 125, 83.3333],
  ['de-df', 250, 125, 62.5],
  ['din-df', 250, 125, 62.5],
  ['de-2df', 250, 125, 125],
  // A page on formats: 1872.
  ['de-reichsformat', 260, 130, 77],
  // A page on formats: 210 x 100 x 50, and x 65.
  ['nl-wf-10', 220, 110, 60],
  ['nl-wf-12', 222, 112, 62],
  ['nl-wdf', 222, 112, 77],
  // A French renovation guide.
  ['fr-common-10', 230, 115, 65],
  ['fr-common-12', 232, 115, 67],
  // A brick technical manual quoting AS/NZS 4455: 230 x 110 x 76, 7 courses 602 mm.
  ['au', 240, 120, 86],
  // BIA Technical Notes 10B: 3 courses 8 in; 2 courses 4 in; 1 course 4 in.
  ['us-modular', 203.2, 101.6, 67.7333],
  ['us-standard', 212.725, 101.6, 67.7333],
  ['us-roman', 304.8, 101.6, 50.8],
  ['us-norman', 304.8, 101.6, 67.7333],
  ['us-utility', 304.8, 101.6, 101.6],
  ['us-closure', 203.2, 101.6, 101.6],
  // A concrete-block size guide; ASTM C90 size tables.
  ['uk-block', 450, null, 225],
  ['us-cmu', 406.4, null, 203.2],
] as const;

test.each(formats)('%s: %f along, %f across, %f up', (id, stretcher, header, course) => {
  const found = findCourse(id);
  expect(Math.abs(found.size - course)).toBeLessThan(0.01);
  expect(Math.abs((found.brick?.stretcher ?? 0) - stretcher)).toBeLessThan(0.01);
  if (header === null) expect(found.brick?.header).toBeNull();
  else expect(Math.abs((found.brick?.header ?? 0) - header)).toBeLessThan(0.01);
});

test.each([
  // The trade's own counts, pieces to a square metre; rounded up by up to 1 for waste, and 33 for
  // 2DF (handbook tables; French guide 65; BIA 6.75 and ASTM C90 1 1/8 to the square foot).
  ['uk-metric', 60, 1],
  ['de-nf', 48, 0.1],
  ['de-df', 64, 0.1],
  ['de-2df', 33, 1.1],
  ['nl-wf-10', 75, 1],
  ['nl-wdf', 58, 1],
  ['fr-common-12', 65, 1],
  ['uk-block', 10, 0.2],
  ['us-modular', 6.75 / 0.09290304, 0.1],
  ['us-cmu', 1.125 / 0.09290304, 0.1],
])('%s takes %f to a square metre, as the trade counts', (id, count, within) => {
  const { size, brick } = findCourse(id);
  expect(Math.abs(1e6 / (size * (brick?.stretcher ?? 0)) - count)).toBeLessThan(within);
});

test.each([
  // BIA Technical Notes 10B: 5 courses to 16 in; their lengths differ between reprints.
  ['us-engineer-modular', 81.28],
  ['us-queen', 81.28],
  ['us-king', 81.28],
])('%s gives its course alone', (id, course) => {
  expect(findCourse(id).size).toBeCloseTo(course, 9);
  expect(findCourse(id).brick).toBeNull();
});

test('the old 9 x 4 1/2 x 3 in brick lies in courses of 82.55 to 85.73 mm', () => {
  // 3 in and a joint of 1/4 to 3/8 in.
  const { size, uncertainty } = findCourse('uk-statute');
  const half = uncertainty * size * Math.sqrt(3);
  expect(size - half).toBeCloseTo(82.55, 2);
  expect(size + half).toBeCloseTo(85.725, 2);
});

describe('courses meet', () => {
  const course = (id: string): number => findCourse(id).size;

  test('12 NF = 16 DF = 8 2DF = 1 m (DIN 4172)', () => {
    expect(12 * course('de-nf')).toBeCloseTo(1000, 9);
    expect(16 * course('de-df')).toBeCloseTo(1000, 9);
    expect(8 * course('de-2df')).toBeCloseTo(1000, 9);
  });

  test('4 UK courses are 300 mm, and 3 are a block', () => {
    expect(4 * course('uk-metric')).toBe(300);
    expect(3 * course('uk-metric')).toBe(course('uk-block'));
  });

  test('4 southern courses are 12 in, 4 northern ones 13 in', () => {
    expect(4 * course('uk-imperial')).toBeCloseTo(12 * 25.4, 9);
    expect(4 * course('uk-imperial-northern')).toBeCloseTo(13 * 25.4, 9);
  });

  test('3 modular courses are 8 in, a concrete masonry unit', () => {
    expect(3 * course('us-modular')).toBeCloseTo(8 * 25.4, 9);
    expect(3 * course('us-modular')).toBeCloseTo(course('us-cmu'), 9);
  });

  test('7 Australian courses are 602 mm', () => {
    expect(7 * course('au')).toBeCloseTo(602, 9);
  });
});

describe('a roof is laid by what shows of a tile', () => {
  test.each([
    // (length - lap) / 2: a slate supplier's guide to BS 5534, and its table.
    ['slate 600 lap 100', 250],
    ['slate 600 lap 110', 245],
    ['slate 500 lap 100', 200],
    ['slate 500mm lap 90mm', 205],
    ['Slate 400, lap 75', 162.5],
    ['slate-500-lap-100', 200],
    ['slate 50cm lap 10cm', 200],
    // A building-construction text of the 19th century: 8.5, 8, 8, 7.5, 6 and 10.5 in.
    ['slate 20in lap 3in', 215.9],
    ['slate-countess-lap-3in', 215.9],
    ['slate-countess-lap-4in', 203.2],
    ['slate-countess-head-nailed-lap-3in', 203.2],
    ['slate-countess-head-nailed-lap-4in', 190.5],
    ['slate-ladies-head-nailed-lap-3in', 152.4],
    ['slate-duchess-lap-3in', 266.7],
    // Cladding guide; 3 in and 76 mm corrugations (New Zealand metal-roof code).
    ['featheredge-150', 110],
    ['featheredge-200', 150],
    ['corrugated-imperial', 76.2],
    ['corrugated-metric', 76],
  ])('%s shows %f mm', (text, gauge) => {
    expect(findCourse(text).size).toBeCloseTo(gauge, 9);
  });

  test.each([
    // Tile guides; makers' data sheets: tiles to a square metre.
    ['plain-tile', 60, 1],
    ['interlocking-tile-lap-75', 9.63, 0.005],
    ['interlocking-tile-lap-100', 10.38, 0.005],
    ['interlocking-plain-tile-lap-75', 20.5, 0.05],
    ['interlocking-plain-tile-lap-100', 22.7, 0.1],
  ])('%s takes %f to a square metre', (id, count, within) => {
    const { size, brick } = findCourse(id);
    expect(Math.abs(1e6 / (size * (brick?.stretcher ?? 0)) - count)).toBeLessThan(within);
  });

  test.each([
    // A timber guide's nominal widths, less 6 to 15 mm (common practice, no source).
    ['shiplap-100', 100],
    ['shiplap-150', 150],
    ['tongue-and-groove-100', 100],
    ['tongue-and-groove-125', 125],
    ['tongue-and-groove-150', 150],
  ])('%s shows %i mm less its joint', (id, width) => {
    const { size, uncertainty } = findCourse(id);
    const half = uncertainty * size * Math.sqrt(3);
    expect(width - (size + half)).toBeCloseTo(6, 9);
    expect(width - (size - half)).toBeCloseTo(15, 9);
  });

  test('a slate of 10 in breaks joint over 10 in', () => {
    expect(findCourse('slate-countess-lap-3in').brick?.stretcher).toBe(254);
  });

  test.each(['slate 100 lap 500', 'slate 100 lap 100'])('%s is no roof', (text) => {
    expect(() => findCourse(text)).toThrow(
      `expected a lap shorter than the slate for course, got "${text}"`,
    );
  });
});

test('a height of the user’s own is a course', () => {
  expect(findCourse('75mm')).toEqual({
    id: 'own',
    name: 'course of 75 mm',
    size: 75,
    uncertainty: 0.005,
    source: 'as given, taken as good to half a per cent',
    brick: null,
  });
  expect(findCourse('3in').size).toBe(76.2);
});

test.each(['UK-Metric', 'uk metric', ' uk_metric '])('%j is uk-metric', (text) => {
  expect(findCourse(text).id).toBe('uk-metric');
});

test.each([
  '',
  'brick',
  'constructor',
  '__proto__',
  'hasOwnProperty',
  '-75mm',
  '0mm',
  'slate',
  'slate lap',
  'slate 500',
  `slate ${' '.repeat(50_000)}`,
])('%j is not a course', (text) => {
  expect(() => findCourse(text, '--course')).toThrow(/^expected .* for --course, got "/);
});

test('an id a slip away, or one of several, is answered with what there is', () => {
  expect(() => findCourse('uk-metrc')).toThrow('(uk-metric?)');
  expect(() => findCourse('nl-wf')).toThrow(/nl-wf-10, nl-wf-12/);
});
