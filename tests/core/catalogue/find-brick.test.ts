import { findBrick } from '@gaugerod/core';
import { expect, test } from 'vitest';

// Lengths in mm: BS EN 771-1 work size as UK guides quote it, DIN 105, BIA Technical Notes 10B (7 5/8
// in). T1 of BS EN 771-1 (from memory): 0.40 times the root of the size, at least 3 mm; anywhere in
// the band alike, over sqrt(3) (JCGM 100:2008, 4.3.7).
test.each([
  ['uk-metric', 215, 5.8652],
  ['UK metric', 215, 5.8652],
  ['de-nf', 240, 6.1968],
  ['din-nf', 240, 6.1968],
  ['us-modular', 193.675, 5.5667],
])('%s is %f mm long, give or take %f', (id, length, tolerance) => {
  const brick = findBrick(id);
  expect(brick.size).toBeCloseTo(length, 9);
  expect(brick.uncertainty * length * Math.sqrt(3)).toBeCloseTo(tolerance, 4);
  expect(brick.source).toContain('BS EN 771-1');
});

test.each(['uk-metrik', 'us-queen', '75mm', '', '__proto__'])('%j is refused', (text) => {
  expect(() => findBrick(text, '--brick')).toThrow(
    /^expected the id of a brick whose length is known \(.*\) for --brick, got "/,
  );
});
