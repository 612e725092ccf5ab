import { findCourse, measureCourses, type Raster } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { transposeRaster } from '../../../packages/core/src/raster/transpose-raster.js';

const reference = findCourse('uk-metric');
const draw = (bond: 'stack' | 'english' | 'flemish' | 'stretcher'): Raster =>
  drawWall({ bond, format: 'uk-metric', coursePx: 20, width: 500, height: 400, seed: 12 }).raster;

// Bricks 225 mm long with their joint stand on end: 60 px, and 20 px from one to the next.
test('bricks that stand on end are told of', () => {
  const found = measureCourses(transposeRaster(draw('stack')), reference);
  // A refusal is as good.
  if (!found.ok) return;
  expect(found.warnings.map(({ code }) => code)).toContain('other-axis');
});

test.each(['english', 'flemish', 'stretcher'] as const)(
  'level %s bond is not sure to stand upright',
  (bond) => {
    const found = measureCourses(draw(bond), reference, { axis: 'x' });
    // A refusal is as good.
    if (!found.ok) return;
    expect(found.value.confidence).toBeLessThanOrEqual(0.3);
    expect(found.warnings.map(({ code }) => code)).toContain('other-axis');
  },
);

test.each(['stack', 'english', 'flemish', 'stretcher'] as const)(
  'level %s bond is sure to be level',
  (bond) => {
    const found = measureCourses(draw(bond), reference);
    expect(found).toMatchObject({ ok: true, value: { lattice: { axis: 'y' } } });
    if (!found.ok) return;
    expect(found.warnings.map(({ code }) => code)).not.toContain('other-axis');
    expect(found.value.confidence).toBeGreaterThan(0.9);
  },
);
