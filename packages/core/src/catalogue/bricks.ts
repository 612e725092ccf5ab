import { inches } from '../units/inches.js';
import type { CourseEntry } from './course-entry.js';

type Unit = readonly [length: number, width: number, height: number];

const modularInches: Unit = [7.625, 3.625, 2.25];
const technicalNote = 'BIA Technical Notes 10B (reprints)';
const din = 'DIN 105 units on the grid of DIN 4172 (two German masonry handbooks)';
const bs657 = 'from memory of BS 657:1941, 9 in nominal; 3/8 in joints';

/**
 * Brickwork is laid to a rod, and a whole wall keeps nearer to it than any brick to its size: within
 * 3 mm in four courses of 75 mm (common practice, no source).
 */
const toGauge = 0.01;
const gaugeSource = 'laid to gauge within 1 %, common practice, no source';

function brick(
  [id, ...alsoCalled]: readonly [string, ...string[]],
  name: string,
  [unit, joint, course]: readonly [Unit, number, number],
  source: string,
): CourseEntry {
  const [length, width] = unit;
  return {
    id,
    alsoCalled,
    name,
    kind: 'brick',
    course,
    tolerance: course * toGauge,
    toleranceSource: gaugeSource,
    unit,
    joint,
    stretcher: length + joint,
    header: width + joint,
    source,
  };
}

function coursingOnly(
  id: string,
  name: string,
  [course, tolerance]: readonly [number, number],
  source: string,
): CourseEntry {
  const unknown = { unit: null, joint: null, stretcher: null, header: null, alsoCalled: [] };
  const toleranceSource = gaugeSource;
  return { ...unknown, id, name, kind: 'brick', course, tolerance, toleranceSource, source };
}

function inInches([length, width, height]: Unit): Unit {
  return [inches(length), inches(width), inches(height)];
}

// 9 in is the brick with its joint: the unit is what is left of it.
function nineInch(height: number): Unit {
  return inInches([9 - 3 / 8, 4.5 - 3 / 8, height]);
}

/** Every brick format, a row each. */
export const bricks: readonly CourseEntry[] = [
  brick(
    ['uk-metric'],
    'UK metric brick',
    [[215, 102.5, 65], 10, 75],
    'BS EN 771-1 work size, as several UK brick guides quote it',
  ),
  brick(
    ['uk-imperial', 'uk-imperial-southern'],
    'UK imperial brick, southern',
    [nineInch(2.625), inches(3 / 8), inches(3)],
    `${bs657}, 2 5/8 in high`,
  ),
  brick(
    ['uk-imperial-northern'],
    'UK imperial brick, northern',
    [nineInch(2.875), inches(3 / 8), inches(3.25)],
    `${bs657}, 2 7/8 in high`,
  ),
  {
    ...coursingOnly(
      'uk-statute',
      'UK statute brick 9 x 4 1/2 x 3 in',
      [inches(3.3125), inches(0.0625)],
      'a history of brick sizes, for the brick; joints of 1/4 to 3/8 in common practice, no source',
    ),
    unit: inInches([9, 4.5, 3]),
    toleranceSource: 'joints of 1/4 to 3/8 in, common practice, no source',
    joint: inches(5 / 16),
    stretcher: inches(9 + 5 / 16),
    header: inches(4.5 + 5 / 16),
  },
  brick(['de-nf', 'din-nf'], 'German NF brick', [[240, 115, 71], 10, 1000 / 12], din),
  brick(['de-df', 'din-df'], 'German DF brick', [[240, 115, 52], 10, 1000 / 16], din),
  brick(['de-2df', 'din-2df'], 'German 2DF brick', [[240, 115, 113], 10, 1000 / 8], din),
  brick(
    ['de-reichsformat'],
    'old German Reichsformat brick',
    [[250, 120, 65], 10, 77],
    'a page on formats, for the brick of 1872; bed joint of 12 mm from memory',
  ),
  brick(
    ['nl-wf-10', 'nl-waalformat-10'],
    'Waalformat brick, 10 mm joints',
    [[210, 100, 50], 10, 60],
    'a page on formats',
  ),
  brick(
    ['nl-wf-12', 'nl-waalformat-12'],
    'Waalformat brick, 12 mm joints',
    [[210, 100, 50], 12, 62],
    'a page on formats',
  ),
  brick(
    ['nl-wdf', 'nl-thick-waalformat'],
    'thick Waalformat brick',
    [[210, 100, 65], 12, 77],
    'a page on formats; joint inferred from 58 a square metre',
  ),
  ...[10, 12].map((joint) => ({
    ...brick(
      [`fr-common-${joint}`],
      `French common brick, ${joint} mm joints`,
      [[220, 110, 55], joint, 55 + joint],
      'a French renovation guide: 5.5 x 11 x 22 cm, header with joint 115 mm',
    ),
    header: 115,
  })),
  brick(
    ['au', 'au-standard'],
    'Australian brick',
    [[230, 110, 76], 10, 86],
    'AS/NZS 4455, as a brick technical manual quotes it',
  ),
  brick(
    ['us-modular'],
    'US modular brick',
    [inInches(modularInches), inches(3 / 8), inches(8 / 3)],
    technicalNote,
  ),
  brick(
    ['us-standard'],
    'US standard brick, not modular',
    [inInches([8, 3.625, 2.25]), inches(3 / 8), inches(8 / 3)],
    technicalNote,
  ),
  ...['engineer-modular', 'queen', 'king'].map((format) =>
    coursingOnly(
      `us-${format}`,
      `US ${format.replace('-', ' ')} brick`,
      [inches(3.2), inches(3.2) * toGauge],
      `${technicalNote}; its lengths differ between reprints`,
    ),
  ),
  brick(
    ['us-roman'],
    'US Roman brick',
    [inInches([11.625, 3.625, 1.625]), inches(3 / 8), inches(2)],
    technicalNote,
  ),
  brick(
    ['us-norman'],
    'US Norman brick',
    [inInches([11.625, 3.625, 2.25]), inches(3 / 8), inches(8 / 3)],
    technicalNote,
  ),
  {
    ...coursingOnly(
      'us-utility',
      'US utility brick',
      [inches(4), inches(4) * toGauge],
      technicalNote,
    ),
    stretcher: inches(12),
    header: inches(4),
  },
  {
    ...coursingOnly(
      'us-closure',
      'US closure brick',
      [inches(4), inches(4) * toGauge],
      technicalNote,
    ),
    stretcher: inches(8),
    header: inches(4),
  },
];
