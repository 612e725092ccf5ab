import type { MeasurementReport } from '@gaugerod/core';
import type { Column } from './in-columns.js';
import { inDigits } from './in-digits.js';
import { inLength } from './in-length.js';
import { inSize } from './in-size.js';

const ways = {
  span: 'a span of known length',
  count: 'courses counted by you',
  courses: 'courses found in the picture',
  rectangle: 'the four corners of a rectangle',
  section: 'a rolled section of known depth',
  distance: 'an estimate from the distance it was taken at',
} as const;

/**
 * Put a measurement in words.
 *
 * @param measurement - As a job reports it.
 * @returns Pairs of a word and what is said of it.
 */
export function measurementLines(measurement: MeasurementReport): Column[] {
  const { reference, axis, coursePeriodPx, brickPeriodPx, bond, mmPerPx } = measurement;
  const sides =
    mmPerPx.x === mmPerPx.y
      ? inDigits(mmPerPx.x)
      : `${inDigits(mmPerPx.x)} across, ${inDigits(mmPerPx.y)} down`;
  const brick = brickPeriodPx === null ? '' : `, a brick ${inDigits(brickPeriodPx)} px`;
  return [
    ['measured by', ways[measurement.method]],
    ['reference', nameReference(reference)],
    ['a course is', coursePeriodPx === null ? null : `${inDigits(coursePeriodPx)} px${brick}`],
    ['courses', axis === 'x' ? 'stand upright' : null],
    ['bond', bond],
    ['mm per pixel', `${sides}, give or take ${inDigits(measurement.uncertaintyPercent, 2)} %`],
    ['made up of', budgetInWords(measurement)],
    // Downwards: near certain must not read as certain.
    ['confidence', `${Math.floor(100 * measurement.confidence)} %`],
    ['shows', `${inSize(measurement.surfaceSizeMm)} of the real thing`],
  ];
}

// Where there is but one part, it is half of what is told already; a hundredth of the largest adds
// nothing to it.
function budgetInWords({ budget }: MeasurementReport): string | null {
  const [largest] = budget;
  const telling = budget.filter(({ percent }) => percent >= (largest?.percent ?? 0) / 100);
  if (telling.length < 2) return null;
  const parts = telling.map(({ source, percent }) => `${source} ${inDigits(percent, 2)}`);
  return `${parts.join(', ')} %, each one standard deviation`;
}

// A course of the user's own is called by its height already.
function nameReference({ id, name, sizeMm, ...known }: MeasurementReport['reference']): string {
  const height = inLength(sizeMm);
  const exact = known.uncertaintyPercent === 0 ? ', taken as exact' : '';
  return `${id === 'own' && name.includes(height) ? name : `${name}, ${height}`}${exact}`;
}
