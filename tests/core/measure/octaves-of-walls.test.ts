import { findCourse, measureCourses } from '@gaugerod/core';
import { sampleViews } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// Drawn walls, about a quarter of each hidden; once each was measured by what it names.
test.each([
  ['storeys of windows', 77_310_000, 2],
  ['storeys of windows in a wall too dark to see its joints', 5_200_000, 115],
  ['courses of headers, with three of stretchers between', 5_200_000, 52],
  ['every second course, of a bond half behind ivy', 88_120_000, 28],
])('%s are not taken for courses', async (_name, seed, index) => {
  const sample = sampleViews(seed, index + 1)[index];
  if (sample === undefined) throw new Error('nothing drawn');
  const { raster, truth } = await sample.draw();
  const outcome = measureCourses(raster, findCourse(truth.format.id));
  const course = outcome.ok ? outcome.value.lattice?.course : null;
  // A refusal does no harm.
  if (course != null) expect(Math.abs(course / truth.coursePx - 1)).toBeLessThan(0.03);
});
