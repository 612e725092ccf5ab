import { findCourses } from '@gaugerod/core';
import { sampleViews } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// Walls as they were drawn: the bond is the one that the fixture laid.
const firstSeed = 52310000;
const views = [
  { index: 23, bond: 'stretcher', name: 'although windows hide a third of it' },
  { index: 56, bond: 'stretcher', name: 'although a quarter of few courses is hidden' },
  { index: 2, bond: 'third-lap', name: 'although its beds show by their shadows alone' },
  { index: 24, bond: 'third-lap', name: 'although it was left leaning by a degree' },
  { index: 37, bond: 'header', name: 'although a sill hides most of one course' },
] as const;

for (const { index, bond, name } of views) {
  test(`${bond} bond is told, ${name}`, async () => {
    const sample = sampleViews(firstSeed, index + 1)[index];
    const drawn = await sample?.draw();
    if (drawn === undefined) throw new Error('no such view');
    expect(drawn.truth.bond).toBe(bond);
    const found = findCourses(drawn.raster);
    expect(found).toMatchObject({ ok: true, value: { bond } });
  });
}
