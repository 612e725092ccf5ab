import { evenLight, mendTile } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// A wall, and whether a dark window stands at its left edge, over a third of its height.
function codesOf(window: boolean, upright: boolean): readonly string[] {
  const { raster, truth } = drawWall({
    bond: 'stretcher',
    coursePx: 20,
    width: 620,
    height: 500,
    seed: 31,
  });
  const { coursePx: course, courseOffset: offset, brickPx: brick, repeat } = truth;
  const joints = { axis: 'y', course, offset } as const;
  const along = { x: true, y: true };
  const { raster: even } = evenLight(raster, { along, unit: { x: brick, y: course }, joints });
  for (const plane of even.planes) {
    for (let y = 120; window && y < 320; y++) plane.fill(0.01, y * 620, y * 620 + 150);
  }
  if (!upright) {
    const made = mendTile(even, { repeat, joints: { ...joints, brick } });
    return made.ok ? made.warnings.map(({ code }) => code) : [made.code];
  }
  const planes = even.planes.map((plane) =>
    Float32Array.from(plane, (_, at) => plane[(at % 500) * 620 + Math.floor(at / 500)]!),
  );
  const [red, green, blue] = planes;
  if (red === undefined || green === undefined || blue === undefined) throw new Error('no planes');
  const made = mendTile(
    { width: 500, height: 620, planes: [red, green, blue] },
    { repeat: { x: repeat.y, y: repeat.x }, joints: { axis: 'x', course, offset, brick } },
  );
  return made.ok ? made.warnings.map(({ code }) => code) : [made.code];
}

test.each([false, true])(
  'a window that a seam runs through is told of (upright: %s)',
  (upright) => {
    expect(codesOf(true, upright)).toContain('other-work-cut');
    expect(codesOf(false, upright)).not.toContain('other-work-cut');
  },
);
