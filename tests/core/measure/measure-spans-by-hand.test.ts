import { type KnownSpan, measureSpans, type Point, realMm } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { across, down, measured, size } from '../../support/known-spans.js';

describe('lines that agree or do not', () => {
  const codesOf = (...spans: KnownSpan[]): readonly string[] => measured(spans).codes;
  const messageOf = (...spans: KnownSpan[]): string => measured(spans).messages.join();
  // Of one plane, but neither across nor down: 800 px, the sides 3 to 4.
  const slanting = (mm: number): KnownSpan => ({
    from: { x: 100, y: 100 },
    to: { x: 740, y: 580 },
    length: realMm(mm),
    markUncertainty: 0,
    lengthUncertainty: 1 / mm,
  });

  test("half a per cent is nobody's fault, however well they are known", () => {
    expect(codesOf(across(1200, 0.1), across(1205.9, 0.1, 2000))).toEqual([]);
    expect(codesOf(across(1205.9, 0.1), across(1200, 0.1, 2000))).toEqual([]);
    expect(codesOf(across(1200, 0.1), across(1206.2, 0.1, 2000))).toEqual(['spans-disagree']);
    expect(codesOf(across(1206.2, 0.1), across(1200, 0.1, 2000))).toEqual(['spans-disagree']);
  });

  test('nor is what two standard uncertainties explain', () => {
    // 36 mm apart, each good to 13 mm (k = 1): 36 / (13 sqrt 2) is 1.96. To 12.5 mm: 2.04.
    expect(codesOf(across(1200, 13), across(1236, 13, 2000))).toEqual([]);
    expect(codesOf(across(1200, 12.5), across(1236, 12.5, 2000))).toEqual(['spans-disagree']);
  });

  test('two differ by as much whichever is named first', () => {
    const said = /^spans 1 and 2 disagree by 4 %: /;
    expect(messageOf(across(1200, 1), across(1248, 1, 1900))).toMatch(said);
    expect(messageOf(across(1248, 1), across(1200, 1, 1900))).toMatch(said);
  });

  test('a fifth is past all sense, more or less', () => {
    const sure = (mm: number): number =>
      measured([across(1000, 1), across(mm, 1, 1900)]).value.confidence;
    // 1000 / 1.19 and 1000 / 1.21.
    for (const [near, far] of [
      [1190, 1210],
      [840.4, 826.4],
    ] as const)
      expect(sure(far)).toBeLessThan(sure(near) / 2);
  });

  test('the more they agree, the surer', () => {
    const sure = (...spans: KnownSpan[]): number => measured(spans).value.confidence;
    const [one, two] = [across(1200, 1), across(1201, 1, 1700)];
    expect(sure(one, two)).toBeGreaterThan(sure(one));
    expect(sure(one)).toBeGreaterThan(0.95);
    expect(sure(one, two, across(1248, 1, 1900))).toBeLessThan(sure(one));
    expect(sure(one, two, across(1248, 1, 1900))).toBeGreaterThan(0.5);
  });

  test('of three that all differ each is told, the farthest out first', () => {
    // Against the mean of the other two: 1300 against 1224, 1200 against 1274; 1248 against 1250 is no difference.
    expect(messageOf(across(1200, 1), across(1248, 1, 1700), across(1300, 1, 1900))).toBe(
      'the spans disagree with one another, span 3 by 6.2 %, span 1 by 5.8 %: are they in the same plane, and is the photo square on?',
    );
    const { value } = measured([across(1200, 1), across(1248, 1, 1700), across(1300, 1, 1900)]);
    expect(value.spans.map(({ used }) => used)).toEqual([true, true, true]);
  });

  test('what lies neither across nor down is no witness of a slant', () => {
    // 1000 px across and 800 px slanting at 1.2 mm to the pixel, and 4 % more.
    const [one, two] = [across(1200, 1), across(1201, 1, 1700)];
    expect(messageOf(one, two, slanting(998.4))).toMatch(
      /^span 3 disagrees by 4 % with the others/,
    );
    expect(messageOf(slanting(960), down(1248))).toMatch(/^spans 1 and 2 disagree by 4 %: one of/);
  });

  test('two to one still lies across, or down', () => {
    const line = (dx: number, dy: number, mmPerPx: number): KnownSpan => ({
      from: { x: 1000, y: 1000 },
      to: { x: 1000 + dx, y: 1000 + dy },
      length: realMm(mmPerPx * Math.hypot(dx, dy)),
    });
    expect(messageOf(line(1000, -500, 1.2), line(500, 1000, 1.25))).toMatch(
      /^span 1 across and span 2 down disagree by 4 %: are they in the same plane/,
    );
    for (const [one, other] of [
      [line(998, -500, 1.2), line(500, 1000, 1.25)],
      [line(1000, -500, 1.2), line(500, 998, 1.25)],
      [line(-500, 998, 1.2), line(1000, 500, 1.25)],
    ] as const)
      expect(messageOf(one, other)).toMatch(/; mark a third to tell which$/);
  });

  test('three are listed as people list them', () => {
    const three = [across(1200, 1), across(1201, 1, 1700), across(1200.5, 1, 1900)];
    expect(messageOf(...three, down(1250))).toMatch(
      /^spans 1, 2 and 3 across and span 4 down disagree by 4 %: /,
    );
  });

  test('one of those across that is out of line is left out, and nothing said of a slant', () => {
    const spans = [across(1200, 1), across(1201, 1, 1700), across(1260, 1, 1900), down(1200)];
    expect(messageOf(...spans)).toMatch(/^span 3 disagrees by 5 % with the others and is left out/);
  });

  test('what two scatter is added to what they are good for', () => {
    // The mean of 1200 and 1248 is 1224, and its standard deviation 24 (JCGM 100:2008, 4.2.3): 1.961 %, twice.
    const { value } = measured([across(1200, 1), across(1248, 1, 1900)]);
    expect(value.mmPerPx.x).toBeCloseTo(1.224, 9);
    expect(value.uncertaintyPercent).toBeCloseTo((200 * 24) / 1224, 6);
    expect(value.budget.map(({ source }) => source)).toEqual(['reference', 'marks', 'fit']);
  });
});

describe('what lines are told of', () => {
  test('ends within two pixels are the same, whichever is the first', () => {
    const moved = (by: number): KnownSpan => ({
      ...across(1200, 6),
      from: { x: 1500, y: 1500 + by },
      to: { x: 2500, y: 1500 - by },
    });
    expect(measured([across(1200, 6), moved(2)])).toMatchObject({
      messages: ['span 2 is span 1 again and counts once: it tells nothing new'],
      value: { spans: [{ used: true }, { used: false }] },
    });
    expect(measured([across(1200, 6), moved(3)]).codes).toEqual([]);
    const half = { ...moved(0), to: { x: 2500, y: 1600 } };
    expect(measured([across(1200, 6), half]).codes).toEqual([]);
    const other = { ...moved(0), from: { x: 2500, y: 1500 }, to: { x: 1500, y: 1400 } };
    expect(measured([across(1200, 6), other]).codes).toEqual([]);
  });

  test('a line is told by its length, by what was said and by how far it is off', () => {
    const { value } = measured([across(1200, 6)]);
    expect(value.reference).toEqual({
      id: 'own',
      name: 'span of known length',
      size: 1200,
      uncertainty: 0.005,
      source: 'given by the user',
    });
    expect(value).toMatchObject({ method: 'span', rectification: null, lattice: null });
    expect(value.spans).toEqual([
      { length: 1200, px: 1000, mmPerPx: 1.2, residualPercent: 0, used: true },
    ]);
  });

  test('what all of them are of has an uncertainty that more of them do not lessen', () => {
    const reference = {
      id: 'section',
      name: 'a rolled section',
      size: realMm(1200),
      uncertainty: 0.01,
      source: 'a table',
    };
    const spans = [across(1200, 0), across(1200, 0, 1800)];
    const outcome = measureSpans(size, spans, { reference, method: 'section' });
    if (!outcome.ok) throw new Error(outcome.message);
    expect(outcome.value.uncertaintyPercent).toBeCloseTo(2, 9);
    expect(outcome.value).toMatchObject({ method: 'section', reference });
  });

  test('a line whose marks leave it open by two fifths is too short', () => {
    const line = (px: number): KnownSpan => ({
      from: { x: 100, y: 100 },
      to: { x: 100 + px, y: 100 },
      length: realMm(75),
    });
    // Two ends, each good to a pixel: sqrt(2) / 7 is 0.202, twice that 40 %; sqrt(2) / 7.1 is 0.199.
    expect(measureSpans(size, [line(7)])).toEqual({
      ok: false,
      code: 'span-too-short',
      message: 'the span is too short: ends marked to a pixel or so leave it open by 40 %',
      hint: 'mark a longer one, or measure a larger photo',
    });
    expect(measureSpans(size, [line(7.1)])).toMatchObject({ ok: true });
  });

  test('a corner of the picture lies in it, and what is past an edge does not', () => {
    const to = (x: number, y: number): unknown =>
      measureSpans(size, [{ from: { x: 2000, y: 1500 }, to: { x, y }, length: realMm(1000) }]);
    for (const [x, y] of [
      [0, 0],
      [4000, 3000],
    ] as const)
      expect(to(x, y)).toMatchObject({ ok: true });
    for (const [x, y] of [
      [-0.1, 0],
      [0, -0.1],
      [4000.1, 0],
      [0, 3000.1],
      [NaN, 0],
    ] as const)
      expect(to(x, y)).toEqual({
        ok: false,
        code: 'outside-photo',
        message: `the point ${x},${y} lies outside the picture, which is 4000 x 3000 px`,
        hint: 'points are x,y in pixels of the upright photo, from its top left corner',
      });
  });

  test('uncertainties and slants that make no sense are refused', () => {
    const line = across(1200, 1);
    for (const bad of [-1, NaN]) {
      expect(() => measureSpans(size, [{ ...line, markUncertainty: bad }])).toThrow(
        'expected a number of pixels of 0 or more for markUncertainty, got ',
      );
      expect(() => measureSpans(size, [{ ...line, lengthUncertainty: bad }])).toThrow(
        'expected a fraction of 0 or more for lengthUncertainty, got ',
      );
    }
    for (const slant of [-1, 45, NaN])
      expect(() => measureSpans(size, [line], { slant })).toThrow(
        'expected degrees from 0 up to 45 for slant, got ',
      );
    expect(measureSpans(size, [line], { slant: 44.9 })).toMatchObject({ ok: true });
    expect(() => measureSpans(size, [{ ...line, to: { x: 1500.9, y: 1500 } }])).toThrow(
      'expected two points a pixel or more apart',
    );
  });
});

// A pinhole: of a wall turned by an angle about its middle, at the distance of one focal length, where a point of the
// picture lies on it.
function onWall(x: number, y: number, radians: number, focal: number): readonly [number, number] {
  const along = (x * focal) / (focal * Math.cos(radians) - x * Math.sin(radians));
  return [along, (y * (focal + along * Math.sin(radians))) / focal];
}

test.each([
  [900, 0, 1, 0],
  [900, 0, 0, 1],
  [0, -700, 1, 0],
  [600, 500, 3, 4],
  [600, -500, 3, 4],
  [-800, 300, 12, -5],
])('a line at %i,%i that goes %i,%i is as far out as a pinhole says', (x, y, dx, dy) => {
  const focal = 3500;
  const half = 5 / Math.hypot(dx, dy);
  const ends = [-half, half].map((by) => ({ x: x + by * dx, y: y + by * dy }));
  const [from = { x, y }, to = { x, y }] = ends;
  const radians = Math.PI / 180;
  // Both ways of slanting, each by a degree; how much longer or shorter 10 px of the picture are on the wall.
  const error = (turn: (p: Point) => readonly [number, number]): number =>
    Math.hypot(turn(to)[0] - turn(from)[0], turn(to)[1] - turn(from)[1]) / 10 - 1;
  const across = error((p) => onWall(p.x, p.y, radians, focal));
  const down = error((p) => onWall(p.y, p.x, radians, focal));
  const moved = (p: Point): Point => ({ x: p.x + 2000, y: p.y + 1500 });
  const span = { from: moved(from), to: moved(to), length: realMm(12) };
  const outcome = measureSpans(size, [span], {
    slant: 1,
    focal: { px: focal, uncertainty: 0, source: 'a pinhole' },
  });
  if (!outcome.ok) throw new Error(outcome.message);
  const told = outcome.value.budget.find(({ source }) => source === 'perspective')?.percent ?? 0;
  // Anywhere up to that alike (JCGM 100:2008, 4.3.7).
  const worked = (100 * Math.hypot(across, down)) / Math.sqrt(3);
  expect(Math.abs(told / worked - 1)).toBeLessThan(0.03);
});
