import {
  type KnownSpan,
  type MeasuredSpans,
  measureSpans,
  type Point,
  realMm,
} from '@gaugerod/core';
import { describe, expect, test } from 'vitest';

const size = { width: 4000, height: 3000 };

// A level line of 1000 px, and what it is in reality.
function across(mm: number, uncertainty: number, y = 1500): KnownSpan {
  return {
    from: { x: 1500, y },
    to: { x: 2500, y },
    length: realMm(mm),
    markUncertainty: 0,
    lengthUncertainty: uncertainty / mm,
  };
}

const down = (mm: number, x = 2000): KnownSpan => ({
  from: { x, y: 1000 },
  to: { x, y: 2000 },
  length: realMm(mm),
});

interface Measured {
  readonly value: MeasuredSpans;
  readonly messages: readonly string[];
  readonly codes: readonly string[];
}

function measured(...[spans, options]: readonly [KnownSpan[], { slant?: number }?]): Measured {
  const outcome = measureSpans(size, spans, options);
  if (!outcome.ok) throw new Error(outcome.message);
  const { value, warnings } = outcome;
  return {
    value,
    messages: warnings.map(({ message }) => message),
    codes: warnings.map(({ code }) => code),
  };
}

// JCGM 100:2008 (GUM), equations 10 and 12, worked by hand: 1.200 with a standard uncertainty of
// 0.006 and 1.212 with 0.012 weigh 4 to 1: 1.2024, and 1 / sqrt(1 / 0.006^2 + 1 / 0.012^2) is
// 0.0053666. They are 0.894 standard uncertainties apart, under 2, so that they agree.
test('two spans weigh by how well they are known', () => {
  const { value, codes } = measured([across(1200, 6), across(1212, 12, 2000)]);
  expect(value.mmPerPx.x).toBeCloseTo(1.2024, 9);
  expect(value.mmPerPx.y).toBeCloseTo(1.2024, 9);
  expect((value.uncertaintyPercent / 200) * value.mmPerPx.x).toBeCloseTo(0.005367, 6);
  expect(codes).toEqual([]);
  // 1.2 / 1.2024 and 1.212 / 1.2024, less 1.
  expect(value.spans.map(({ residualPercent }) => residualPercent)).toEqual([
    expect.closeTo(-0.1996, 4),
    expect.closeTo(0.7984, 4),
  ]);
});

test('equal spans tell the scale better the more there are', () => {
  // Each is good to sqrt(2) px in 1000, 0.141 %; four of them to half of that (GUM, 4.2.3).
  const four = [down(1200, 1000), down(1200, 1600), down(1200, 2400), down(1200, 3000)];
  expect(measured(four.slice(0, 1)).value.uncertaintyPercent).toBeCloseTo(0.2828, 4);
  expect(measured(four).value.uncertaintyPercent).toBeCloseTo(0.1414, 4);
});

test('of three spans the one that contradicts the others is named and left out', () => {
  const { value, messages, codes } = measured([
    across(1200, 1),
    across(1201, 1, 1700),
    across(1248, 1, 1900),
  ]);
  expect(codes).toEqual(['spans-disagree']);
  expect(messages[0]).toBe(
    'span 3 disagrees by 4 % with the others and is left out: is it in the same plane?',
  );
  expect(value.spans.map(({ used }) => used)).toEqual([true, true, false]);
  expect(value.mmPerPx.x).toBeCloseTo(1.2005, 9);
  // What is left out is no reference.
  expect(value.reference).toMatchObject({ name: '2 spans of known length, the longest 1.201 m' });
});

test('of two spans that contradict each other nobody knows which is wrong', () => {
  const { value, messages } = measured([across(1200, 1), across(1248, 1, 1900)]);
  expect(messages).toEqual([
    'spans 1 and 2 disagree by 4 %: one of them is wrong, or they are not in the same plane; mark a third to tell which',
  ]);
  expect(value.confidence).toBeLessThanOrEqual(0.5);
  // Both lie within what is told.
  const told = (value.uncertaintyPercent / 100) * value.mmPerPx.x;
  for (const { mmPerPx } of value.spans) {
    expect(Math.abs(mmPerPx - value.mmPerPx.x)).toBeLessThan(told);
  }
});

test('spans that contradict each other past all sense are next to worthless', () => {
  const { value, codes } = measured([across(1200, 1), across(2400, 1, 1900)]);
  expect(codes).toEqual(['spans-disagree']);
  expect(value.confidence).toBeLessThanOrEqual(0.2);
});

test('spans that agree each way but not with one another speak of a slant', () => {
  const { messages, value } = measured([
    across(1200, 1),
    across(1201, 1, 1700),
    down(1250, 1800),
    down(1249, 2200),
  ]);
  expect(messages).toEqual([
    'spans 1 and 2 across and spans 3 and 4 down disagree by 3.9 %: are they in the same plane, or is the photo slanted or stretched?',
  ]);
  expect(value.spans.every(({ used }) => used)).toBe(true);
});

test('the same span twice counts once', () => {
  const again = { ...across(1200, 6), from: { x: 2500, y: 1500 }, to: { x: 1500, y: 1501 } };
  const { value, codes } = measured([across(1200, 6), again]);
  expect(codes).toEqual(['spans-repeat']);
  expect(value.uncertaintyPercent).toBeCloseTo(1, 9); // 2 * 6 / 1200
  expect(() => measureSpans(size, [across(1200, 6), { ...again, length: realMm(1300) }])).toThrow(
    'expected one length for spans 1 and 2, the same line, for lengths, got "1200 mm and 1300 mm"',
  );
});

test('a photo that may be off square says less', () => {
  const middle = down(1200);
  expect(measured([middle]).value.budget.map(({ source }) => source)).not.toContain('perspective');
  const part = (span: KnownSpan): number =>
    measured([span], { slant: 5 }).value.budget.find(({ source }) => source === 'perspective')
      ?.percent ?? 0;
  // A slant of 5 degrees foreshortens by 0.381 % (1 - cos 5); anywhere up to that alike: over
  // sqrt(3) (GUM, 4.3.7). About the middle nothing else comes in.
  expect(part(middle)).toBeCloseTo(0.381 / Math.sqrt(3), 3);
  // 1000 px to the right of it, the wall is 1000 / 4000 * tan 5 = 2.187 % nearer or farther for a
  // focal length as long as the picture, 36 mm of a 35 mm camera.
  expect(part(down(1200, 3000))).toBeCloseTo(Math.hypot(0.381, 2.187) / Math.sqrt(3), 2);
  // One on either side: it cancels.
  const both = measured([down(1200, 1000), down(1200, 3000)], { slant: 5 }).value.budget;
  expect(both.find(({ source }) => source === 'perspective')?.percent).toBeCloseTo(0.22, 2);
});

test('no span, a span of no length and one that leaves the picture measure nothing', () => {
  expect(() => measureSpans(size, [])).toThrow(/^expected one span or more for spans/);
  const point = { ...across(1200, 1), to: { x: 1500, y: 1500 } };
  expect(() => measureSpans(size, [down(1200), point])).toThrow(
    'expected two points a pixel or more apart for spans, got "1500,1500 1500,1500"',
  );
  const outside = { ...across(1200, 1), to: { x: 4001, y: 1500 } };
  expect(measureSpans(size, [down(1200), outside])).toMatchObject({
    ok: false,
    code: 'outside-photo',
  });
});

// JCGM 100:2008 (GUM), equations 10 and 12, worked by hand: s = n c / px, u(px) = sqrt(2) u1,
// U = 2 u; a course of 75 mm, n of them over so many pixels, and U in per cent.
test.each([
  { courses: 1, courseU: 0, px: 62.5, mark: 1, percent: 4.5255 },
  { courses: 4, courseU: 0, px: 250, mark: 1, percent: 1.1314 },
  { courses: 10, courseU: 0, px: 625, mark: 1, percent: 0.4525 },
  { courses: 10, courseU: 0.5, px: 625, mark: 0.5, percent: 1.3524 },
  { courses: 10, courseU: 1, px: 625, mark: 1, percent: 2.7048 },
  { courses: 10, courseU: 1 / Math.sqrt(3), px: 625, mark: 0.5, percent: 1.5561 },
  { courses: 20, courseU: 1, px: 1250, mark: 0.5, percent: 2.6691 },
])('$courses courses marked to $mark px are good to $percent %', (row) => {
  const outcome = measureSpans(size, [
    {
      from: { x: 10, y: 20 },
      to: { x: 10, y: 20 + row.px },
      length: realMm(row.courses * 75),
      markUncertainty: row.mark,
      lengthUncertainty: row.courseU / 75,
    },
  ]);
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.value.mmPerPx.x).toBeCloseTo(1.2, 9);
  expect(outcome.value.mmPerPx.y).toBeCloseTo(1.2, 9);
  // The worked figures are printed to four decimals.
  expect(outcome.value.uncertaintyPercent).toBeCloseTo(row.percent, 4);
});

test('a slanting span counts along its own length', () => {
  const outcome = measureSpans(size, [
    {
      from: { x: 0, y: 0 },
      to: { x: 300, y: 400 },
      length: realMm(1000),
    },
  ]);
  // 3, 4, 5: 500 px.
  expect(outcome).toMatchObject({ ok: true, value: { mmPerPx: { x: 2, y: 2 } } });
});

test('a span that leaves the picture is refused', () => {
  const outcome = measureSpans(size, [
    {
      from: { x: 0, y: 0 },
      to: { x: 0, y: 3001 },
      length: realMm(1000),
    },
  ]);
  expect(outcome).toMatchObject({ ok: false, code: 'outside-photo' });
});

test('two points in one place measure nothing', () => {
  const at = { x: 5, y: 5 };
  expect(() => measureSpans(size, [{ from: at, to: at, length: realMm(10) }])).toThrow(RangeError);
});

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
