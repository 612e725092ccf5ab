import { findFocalLength, fromEquivalent, type PhotoExif } from '@gaugerod/core';
import { expect, test } from 'vitest';

const none: PhotoExif = {
  focalLengthMm: null,
  focalLength35mm: null,
  digitalZoom: 1,
  sensorPxPerMm: null,
  stored: null,
};

function focalPx(width: number, height: number, exif: Partial<PhotoExif>): number {
  const found = findFocalLength({ width, height }, { ...none, ...exif });
  if (!found.ok) throw new Error(found.message);
  return found.value.px;
}

// Pinhole, equal diagonals (CIPA DCG-001, 35 mm film measures 36 x 24 mm, diagonal 43.266615):
// f px = f35 sqrt(W^2 + H^2) / 43.266615. The last column is what the width would give, W / 36, which
// the program must not report where it differs.
test.each([
  [6000, 4000, 26, 4333.3333, 4333.3333],
  [4032, 3024, 26, 3028.6631, 2912],
  [4000, 2250, 26, 2757.8801, 2888.8889],
  [6000, 4000, 50, 8333.3333, 8333.3333],
])('%i x %i px at %i mm of 35 mm film is %f px', (width, height, focal, px, byWidth) => {
  expect(focalPx(width, height, { focalLength35mm: focal })).toBeCloseTo(px, 3);
  expect(focalPx(height, width, { focalLength35mm: focal })).toBeCloseTo(px, 3);
  const { uncertainty } = fromEquivalent({ width, height }, focal, 'given');
  // What the other rule would give is within twice the standard uncertainty.
  expect(Math.abs(byWidth / px - 1)).toBeLessThanOrEqual(2 * uncertainty);
});

test('the sensor tells where the equivalent is not noted', () => {
  // 6000 px on 36 mm; 50 mm are 8333.3 px, as above, and half of that in a copy of half the size.
  const exif = {
    focalLengthMm: 50,
    sensorPxPerMm: 6000 / 36,
    stored: { width: 6000, height: 4000 },
  };
  expect(focalPx(6000, 4000, exif)).toBeCloseTo(8333.3333, 3);
  expect(focalPx(2000, 3000, exif)).toBeCloseTo(4166.6667, 3);
});

test('a smaller copy of the whole picture sees as much', () => {
  const stored = { width: 4032, height: 3024 };
  expect(focalPx(2016, 1512, { focalLength35mm: 26, stored })).toBeCloseTo(3028.6631 / 2, 3);
});

test.each([
  ['no notes', null, /does not say its focal length/],
  ['a cropped picture', { focalLength35mm: 26, stored: { width: 4032, height: 3024 } }, /cropped/],
  ['digital zoom', { focalLength35mm: 26, digitalZoom: 2 }, /digital zoom of 2 times/],
  ['a lens on an unknown sensor', { focalLengthMm: 4.3 }, /how large the sensor is/],
  [
    'a sensor of no camera',
    { focalLengthMm: 50, sensorPxPerMm: 166_666, stored: { width: 3000, height: 3000 } },
    /its sensor measures 0.025 mm/,
  ],
])('%s tells no focal length', (_, exif, expected) => {
  const size = { width: 3000, height: 3000 };
  const found = findFocalLength(size, exif && { ...none, ...exif });
  expect(found).toMatchObject({ ok: false, code: 'no-focal-length' });
  expect(found).toHaveProperty('message', expect.stringMatching(expected));
  expect(found).toHaveProperty('hint', expect.stringContaining('--focal'));
});

test('a shape that no camera stores is doubted', () => {
  const { uncertainty } = fromEquivalent({ width: 3000, height: 1650 }, 26, 'given');
  expect(uncertainty).toBeGreaterThan(0.1);
});
