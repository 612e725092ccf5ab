import { fromEquivalent, type Measurement, measureDistance, realMm } from '@gaugerod/core';
import { expect, test } from 'vitest';

function estimate(width: number, height: number, focal: number, metres: number): Measurement {
  const outcome = measureDistance(
    { width, height },
    {
      distance: { length: realMm(1000 * metres), tolerance: realMm(1) },
      focal: fromEquivalent({ width, height }, focal, 'given'),
    },
  );
  if (!outcome.ok) throw new Error('an estimate is never refused');
  expect(outcome.warnings.map(({ code }) => code)).toEqual(['estimate']);
  return outcome.value;
}

// mm per pixel = distance / f px, with f px by equal diagonals as in CIPA DCG-001; the width rule
// would give 1.717033 and 1.730769 for the second and third.
test.each([
  [6000, 4000, 26, 5, 1.153846],
  [4032, 3024, 26, 5, 1.650893],
  [4000, 2250, 26, 5, 1.812987],
  [6000, 4000, 50, 10, 1.2],
])('%i x %i px at %i mm from %i m away: %f mm per pixel', (width, height, focal, m, expected) => {
  const { mmPerPx, method } = estimate(width, height, focal, m);
  expect(mmPerPx.x).toBeCloseTo(expected, 6);
  expect(mmPerPx.y).toBeCloseTo(expected, 6);
  expect(method).toBe('distance');
});

test('an estimate is never better than 5 %, nor sure', () => {
  const { uncertaintyPercent, confidence } = estimate(6000, 4000, 50, 10);
  expect(uncertaintyPercent).toBeGreaterThanOrEqual(5);
  expect(confidence).toBeLessThanOrEqual(0.5);
});

test('a distance that nobody vouches for is good to 0.1 m', () => {
  const size = { width: 6000, height: 4000 };
  const focal = fromEquivalent(size, 50, 'given');
  const outcome = measureDistance(size, { distance: { length: realMm(1000) }, focal });
  // 0.1 m in 1 m, anywhere alike, twice: 2 * 10 / sqrt(3) % (JCGM 100:2008, 4.3.7).
  expect(outcome).toHaveProperty('value.uncertaintyPercent', expect.closeTo(11.56, 1));
});
