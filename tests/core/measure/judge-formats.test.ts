import { type CourseReference, type FormatJudgement, judgeFormats, realMm } from '@gaugerod/core';
import { expect, test } from 'vitest';

const shape = (courses: number, bond = 'stretcher') => ({ courses, uncertainty: 0.005, bond });

const ids = ({ formats }: FormatJudgement): string[] =>
  formats.map(({ reference }) => reference.id);

const probabilityOf = ({ formats }: FormatJudgement, wanted: string): number =>
  formats.find(({ reference }) => reference.id === wanted)?.probability ?? 0;

test('bricks three courses long are an honest tie of four formats', () => {
  // Stretcher over course, both with joint: UK metric 225/75 (BS EN 771-1 work size), UK imperial
  // 9 in/3 in (BS 657), DIN 4172 NF 250 mm/(1 m/12), US modular 8 in/(8 in/3) (BIA 10B): all 3.
  const judged = judgeFormats(shape(3, 'flemish'));
  expect([...judged.tied].sort()).toEqual(['de-nf', 'uk-imperial', 'uk-metric', 'us-modular']);
  const even = judged.tied.map((id) => probabilityOf(judged, id));
  expect(Math.max(...even) - Math.min(...even)).toBeLessThan(0.01);
});

test('bricks four courses long are German DF', () => {
  // DIN 4172: 250 mm to a sixteenth of a metre. Nothing else in the catalogue is within 8 %.
  const judged = judgeFormats(shape(4));
  expect(ids(judged)[0]).toBe('de-df');
  expect(probabilityOf(judged, 'de-df')).toBeGreaterThan(0.8);
  expect(judged.tied).toEqual([]);
});

test('a shape that no format has is not forced on the nearest', () => {
  // US Norman brick is 4.5 courses long (12 in to 2 2/3 in), US Roman 6 (12 in to 2 in).
  const judged = judgeFormats(shape(5.2));
  expect(judged.other).toBeGreaterThan(0.95);
  expect(judged.formats).toEqual([]);
});

test('probabilities and that of none in the catalogue come to one', () => {
  for (const courses of [1.2, 1.5, 2, 2.8, 3.1, 3.6, 4.5]) {
    const { formats, other } = judgeFormats(shape(courses));
    const sum = formats.reduce((total, { probability }) => total + probability, other);
    expect(sum).toBeGreaterThan(0.9);
    expect(sum).toBeLessThanOrEqual(1 + 1e-9);
  }
});

test('a wall of headers is told from stretchers by the formats', () => {
  // A header of UK metric brick is 112.5 mm to a course of 75 mm: no stretcher is so short.
  expect(judgeFormats(shape(1.5)).bond).toBe('header');
  expect(judgeFormats(shape(3, 'header')).bond).toBe('stretcher');
});

test('bricks whose stretcher is three headers make no bond of both', () => {
  // US utility brick: 12 in and 4 in with joints, courses of 4 in (BIA 10B).
  expect(ids(judgeFormats(shape(3)))).toContain('us-utility');
  expect(ids(judgeFormats(shape(3, 'english')))).not.toContain('us-utility');
});

test('where the wall stands puts formats of that region first, and keeps the others', () => {
  const judged = judgeFormats(shape(3, 'flemish'), { region: 'EU' });
  expect(ids(judged)[0]).toBe('de-nf');
  expect(probabilityOf(judged, 'de-nf')).toBeGreaterThan(10 * probabilityOf(judged, 'uk-metric'));
  expect(ids(judged)).toContain('uk-metric');
});

test('the less sure the length, the more formats it can be', () => {
  const sure = judgeFormats({ courses: 2.79, uncertainty: 0.002, bond: 'english' });
  const vague = judgeFormats({ courses: 2.79, uncertainty: 0.03, bond: 'english' });
  expect(vague.formats.length).toBeGreaterThan(sure.formats.length);
});

test('a bond that the catalogue does not hold is refused', () => {
  expect(() => judgeFormats(shape(3, 'herringbone'))).toThrow(RangeError);
});

// Measured on the works' own chimney: 5.2 courses long, which nothing in the catalogue is.
const chimney: CourseReference = {
  id: 'chimney-brick',
  name: 'chimney brick',
  size: realMm(50),
  uncertainty: 0.005,
  source: 'the works, by tape',
  brick: { stretcher: realMm(260), header: realMm(128), joint: realMm(8) },
};

test('a format beside the catalogue is one that bricks can be of, wherever the wall stands', () => {
  const own = [chimney];
  expect(judgeFormats(shape(5.2)).formats.map(({ reference }) => reference.id)).not.toContain(
    'chimney-brick',
  );
  for (const region of [undefined, 'UK', 'EU'] as const) {
    const judged = judgeFormats(shape(5.2), { own, ...(region && { region }) });
    expect(ids(judged)[0]).toBe('chimney-brick');
    expect(probabilityOf(judged, 'chimney-brick')).toBeGreaterThan(0.8);
  }
});

test('as likely as others, a format of one own comes first; told twice or of the catalogue, it counts once', () => {
  const brick = { stretcher: realMm(225), header: realMm(112.5), joint: realMm(10) };
  const alike = { ...chimney, size: realMm(75), brick };
  const judged = judgeFormats(shape(3, 'flemish'), {
    own: [alike, alike, { ...alike, id: 'de-nf' }],
  });
  expect(judged.tied[0]).toBe('chimney-brick');
  expect([...judged.tied].sort()).toEqual(
    ['chimney-brick', 'de-nf', 'uk-imperial', 'uk-metric', 'us-modular'].sort(),
  );
  const sum = judged.formats.reduce((total, { probability }) => total + probability, judged.other);
  expect(sum).toBeLessThanOrEqual(1 + 1e-9);
});

test('one of which no brick is known has no shape', () => {
  const bare = { ...chimney, brick: null };
  expect(judgeFormats(shape(3), { own: [bare] })).toEqual(judgeFormats(shape(3)));
});
