import { evenLight, mendTile } from '@gaugerod/core';
import { drawWall, drawWork } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

interface Told {
  readonly known: boolean;
  readonly coursePx: number;
  readonly seed: number;
}

const usual: Told = { known: true, coursePx: 20, seed: 31 };

// A wall, whether a dark window stands at its left edge, over a third of its height, and whether anybody
// knows how long its bricks are.
function codesOf(
  window: boolean,
  upright: boolean,
  { known, coursePx, seed }: Told = usual,
): readonly string[] {
  const { raster, truth } = drawWall({
    bond: 'stretcher',
    coursePx,
    width: 620,
    height: 500,
    seed,
  });
  const { coursePx: course, courseOffset: offset, brickPx, repeat } = truth;
  const brick = known ? brickPx : null;
  const joints = { axis: 'y', course, offset } as const;
  const along = { x: true, y: true };
  const { raster: even } = evenLight(raster, { along, unit: { x: brickPx, y: course }, joints });
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

test.each([
  [false, true],
  [true, true],
  [false, false],
  [true, false],
])('a window that a seam runs through is told of (upright: %s, bricks: %s)', (upright, known) => {
  expect(codesOf(true, upright, { ...usual, known })).toContain('other-work-cut');
  expect(codesOf(false, upright, { ...usual, known })).not.toContain('other-work-cut');
});

// 75 mm at 1:76.2 and 600 dpi, the worked chain of a yard of 914.4 mm: of that a course has 11.6 pixels where it is seen
// in two times fewer.
test.each([31, 32, 33])('so it is of courses of 23.25 pixels, of wall %i', (seed) => {
  expect(codesOf(true, false, { ...usual, coursePx: 23.25, seed })).toContain('other-work-cut');
  expect(codesOf(false, false, { ...usual, coursePx: 23.25, seed })).not.toContain(
    'other-work-cut',
  );
});

test.each(['setts', 'slates', 'boards', 'corrugated'] as const)(
  'of %s, whose joints show too little, nothing is said',
  (work) => {
    const { raster, truth } = drawWork({ work, coursePx: 24, width: 560, height: 480, seed: 8 });
    const { coursePx: course, courseOffset: offset } = truth;
    const made = mendTile(raster, {
      repeat: { x: null, y: 2 * course },
      joints: { axis: 'y', course, offset, brick: null },
    });
    if (!made.ok) throw new Error(made.message);
    expect(made.warnings.map(({ code }) => code)).not.toContain('other-work-cut');
  },
);
