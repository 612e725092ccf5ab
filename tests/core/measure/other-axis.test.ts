import { findCourse, measureCourses, type Raster, realMm } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { transposeRaster } from '../../../packages/core/src/raster/transpose-raster.js';

const reference = findCourse('uk-metric');
const draw = (bond: 'stack' | 'english' | 'flemish' | 'stretcher'): Raster =>
  drawWall({ bond, format: 'uk-metric', coursePx: 20, width: 500, height: 400, seed: 12 }).raster;

// Bricks 225 mm long with their joint stand on end: 60 px, and 20 px from one to the next.
test('bricks that stand on end are told of, and are no courses of the format named', () => {
  const found = measureCourses(transposeRaster(draw('stack')), reference);
  if (!found.ok) throw new Error(found.message);
  expect(found.warnings.map(({ code }) => code)).toContain('other-axis');
  expect(found.value.confidence).toBeLessThan(0.5);
});

test('courses of bricks on end are as sure as others where their own height is given', () => {
  const own = { ...reference, id: 'own', size: realMm(225), brick: null };
  const found = measureCourses(transposeRaster(draw('stack')), own);
  if (!found.ok) throw new Error(found.message);
  // 225 mm on 60 px.
  expect(Math.abs(found.value.mmPerPx.y / 3.75 - 1)).toBeLessThan(0.01);
  expect(found.value.confidence).toBeGreaterThan(0.9);
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
