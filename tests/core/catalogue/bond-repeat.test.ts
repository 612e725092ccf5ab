import { type Bond, bondRepeat, bonds, findCourse, realMm } from '@gaugerod/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

function bondOf(id: string): Bond {
  const bond = bonds.find((candidate) => candidate.id === id);
  if (!bond) throw new Error(`no bond ${id}`);
  return bond;
}

function repeatOf(bond: string, format: string): [number, number] {
  const { size, brick } = findCourse(format);
  if (!brick?.header) throw new Error(`${format} has no header`);
  const { x, y } = bondRepeat(bondOf(bond), {
    stretcher: brick.stretcher,
    header: brick.header,
    course: size,
  });
  return [x, y];
}

// Bricklaying glossaries: Flemish is header and stretcher in turn, English courses of each in turn,
// garden-wall 3 (or 5) stretcher courses, or stretchers, to one of headers. Lengths: the formats' own.
const table = [
  ['uk-metric', [225, 150], [225, 150], [337.5, 150], 300, 787.5, 112.5],
  ['uk-imperial', [228.6, 152.4], [228.6, 152.4], [342.9, 152.4], 304.8, 800.1, 114.3],
  ['de-nf', [250, 166.6667], [250, 166.6667], [375, 166.6667], 333.3333, 875, 125],
  ['de-df', [250, 125], [250, 125], [375, 125], 250, 875, 125],
  ['us-modular', [203.2, 135.4667], [203.2, 135.4667], [304.8, 135.4667], 270.9333, 711.2, 101.6],
  ['nl-wf-10', [220, 120], [220, 120], [330, 120], 240, 770, 110],
  // The trap: a stretcher of 222 mm is not two headers of 112.
  ['nl-wf-12', [222, 124], [224, 124], [334, 124], 248, 778, 112],
  ['au', [240, 172], [240, 172], [360, 172], 344, 840, 120],
  ['fr-common-10', [230, 130], [230, 130], [345, 130], 260, 805, 115],
] as const;

describe.each(table)('%s', (format, stretcher, english, flemish, garden, flemishGarden, header) => {
  const within = (got: readonly number[], expected: readonly number[]): void => {
    for (const [index, value] of got.entries()) {
      expect(Math.abs(value - expected[index]!)).toBeLessThan(0.01);
    }
  };

  test('stretcher, English and Flemish bond', () => {
    within(repeatOf('stretcher', format), stretcher);
    within(repeatOf('english', format), english);
    within(repeatOf('flemish', format), flemish);
  });

  test('English cross bond takes four courses', () => {
    within(repeatOf('english-cross', format), [english[0], 2 * english[1]]);
  });

  test('garden-wall bonds', () => {
    within(repeatOf('english-garden-wall-3', format), [english[0], garden]);
    within(repeatOf('english-garden-wall-5', format), [english[0], 1.5 * garden]);
    within(repeatOf('flemish-garden-wall', format), [flemishGarden, stretcher[1]]);
  });

  test('header, stack and third-lap bond', () => {
    within(repeatOf('header', format), [header, stretcher[1]]);
    within(repeatOf('stack', format), [stretcher[0], stretcher[1] / 2]);
    within(repeatOf('third-lap', format), [stretcher[0], 1.5 * stretcher[1]]);
    within(repeatOf('third-lap-alternating', format), [stretcher[0], stretcher[1]]);
  });
});

test.each([
  // A UK block of 450 x 225 and a US concrete masonry unit of 16 x 8 in, with joints.
  ['uk-block', 450, 450],
  ['us-cmu', 406.4, 406.4],
])('%s in stretcher bond repeats over %f by %f mm', (format, x, y) => {
  const { size, brick } = findCourse(format);
  const stretcher = brick?.stretcher ?? realMm(1);
  const repeat = bondRepeat(bondOf('stretcher'), {
    stretcher,
    header: realMm(stretcher / 2),
    course: size,
  });
  expect(repeat.x).toBeCloseTo(x, 9);
  expect(repeat.y).toBeCloseTo(y, 9);
});

test('English bond of bricks that are not two headers long says that it does not close', () => {
  const of = (stretcher: number, header: number, bond: string): boolean =>
    bondRepeat(bondOf(bond), {
      stretcher: realMm(stretcher),
      header: realMm(header),
      course: realMm(62),
    }).exact;
  expect(of(222, 112, 'english')).toBe(false);
  expect(of(220, 110, 'english')).toBe(true);
  expect(of(222, 112, 'flemish')).toBe(true);
});

describe.each(bonds)('$id', ({ courses }) => {
  // Perpends of one course within one repeat, in units of a header, a stretcher being two.
  const perpends = (index: number, repeat: number): string => {
    const { run, shift } = courses[index % courses.length]!;
    const lengths = run.map((face) => (face === 'stretcher' ? 2 : 1));
    const length = lengths.reduce((sum, part) => sum + part, 0);
    const places = new Set<string>();
    let at = shift * length;
    for (let part = 0; at < shift * length + repeat - 1e-9; part++) {
      places.add((((at % repeat) + repeat) % repeat).toFixed(6));
      at += lengths[part % lengths.length]!;
    }
    return [...places].sort().join();
  };
  const format = { stretcher: realMm(2), header: realMm(1), course: realMm(1) };

  test('closes: every run goes into the repeat a whole number of times', () => {
    const { x } = bondRepeat({ id: '', name: '', source: '', courses }, format);
    for (const { run, shift } of courses) {
      const length = run.reduce((sum, face) => sum + (face === 'stretcher' ? 2 : 1), 0);
      expect(x % length).toBe(0);
      expect(shift >= 0 && shift < 1).toBe(true);
    }
  });

  test('no fewer courses repeat', () => {
    const { x } = bondRepeat({ id: '', name: '', source: '', courses }, format);
    const all = courses.map((_, index) => perpends(index, x));
    for (let fewer = 1; fewer < courses.length; fewer++) {
      expect(all.every((line, index) => line === all[(index + fewer) % all.length])).toBe(false);
    }
  });

  test('no perpend stands over another, but in stack bond', () => {
    const { x } = bondRepeat({ id: '', name: '', source: '', courses }, format);
    for (let index = 0; index < courses.length && courses.length > 1; index++) {
      expect(perpends(index, x)).not.toBe(perpends(index + 1, x));
    }
  });
});

test('a repeat grows with the brick, whatever the bond', () => {
  const size = fc.double({ min: 1, max: 1000, noNaN: true });
  fc.assert(
    fc.property(fc.constantFrom(...bonds), size, size, (bond, header, course) => {
      const of = (times: number) =>
        bondRepeat(bond, {
          stretcher: realMm(2 * header * times),
          header: realMm(header * times),
          course: realMm(course * times),
        });
      expect(of(3).x / of(1).x).toBeCloseTo(3, 9);
      expect(of(3).y / of(1).y).toBeCloseTo(3, 9);
      expect(of(1).exact).toBe(true);
    }),
  );
});

test('a header as long as the stretcher is a mistake', () => {
  const side = realMm(100);
  expect(() =>
    bondRepeat(bondOf('english'), { stretcher: side, header: side, course: side }),
  ).toThrow('expected a stretcher longer than the header for format, got 100');
});
