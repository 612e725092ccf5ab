import { createRaster, findCourses, type Raster } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

const wall = { coursePx: 18, width: 640, height: 480, offsetX: 5, offsetY: 4 } as const;

// One bond above, another from a bed joint down: courses of one height throughout.
function lay(above: string, below: string, seed: number): Raster {
  const drawn = [above, below].map((bond) => drawWall({ ...wall, bond, seed }));
  const joints = drawn[0]?.truth.bedJoints ?? [];
  const end = Math.round(joints[joints.length >> 1] ?? 0) * wall.width;
  const out = createRaster(wall.width, wall.height);
  out.planes.forEach((plane, channel) => {
    const [one, other] = drawn.map(({ raster }) => raster.planes[channel]);
    if (!one || !other) throw new Error('no such channel');
    plane.set(one.subarray(0, end));
    plane.set(other.subarray(end), end);
  });
  return out;
}

test.each([
  ['english', 'flemish'],
  ['flemish', 'stretcher'],
  ['stretcher', 'header'],
  ['english-cross', 'english-garden-wall-3'],
] as const)('%s bond over %s bond is called two bonds, and no repeat is given', (above, below) => {
  const found = findCourses(lay(above, below, 41));
  if (!found.ok) throw new Error(found.message);
  const { bond, repeat, twoBonds, course } = found.value;
  expect(found.warnings.map(({ code }) => code)).toContain('two-bonds');
  expect([bond, repeat]).toEqual([null, { x: null, y: null }]);
  expect(twoBonds?.toSorted()).toEqual([above, below].toSorted());
  // The courses are one height all the same, as drawn.
  expect(Math.abs(course / 18 - 1)).toBeLessThan(0.005);
});

test.each(['stretcher', 'english', 'flemish', 'english-garden-wall-5', 'stack'])(
  'a wall of one bond is not called two: %s',
  (bond) => {
    const found = findCourses(drawWall({ ...wall, bond, seed: 42, wear: 0.6 }).raster);
    if (!found.ok) throw new Error(found.message);
    expect(found.value.twoBonds).toBeNull();
  },
);
