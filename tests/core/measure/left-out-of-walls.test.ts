import { findCourses } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// Every tenth of the way across and down, whether a place is left out.
function shareLeftOut(options: Parameters<typeof drawWall>[0]): number {
  const { raster } = drawWall(options);
  const found = findCourses(raster);
  if (!found.ok) throw new Error(found.message);
  const { leftOut } = found.value.found;
  let count = 0;
  for (let i = 0; i < 400; i++) {
    const x = ((i % 20) + 0.5) * (raster.width / 20);
    const y = (Math.floor(i / 20) + 0.5) * (raster.height / 20);
    const covers = leftOut.some(
      (part) => x > part.x && x < part.x + part.width && y > part.y && y < part.y + part.height,
    );
    if (covers) count++;
  }
  return count / 400;
}

const wall = { bond: 'flemish', coursePx: 18, width: 700, height: 600 } as const;

test.each([1, 2, 3, 4])(
  'nothing is left out of a clean wall, however weathered: seed %i',
  (seed) => {
    expect(shareLeftOut({ ...wall, seed, wear: 0.25 * seed, soot: 0.2, lime: 0.3 })).toBe(0);
  },
);

test.each([11, 12, 13, 14, 15])('windows, pipes and ivy are left out: seed %i', (seed) => {
  // The drawing hides up to a quarter of the picture, and no more than 0.35.
  const share = shareLeftOut({ ...wall, seed, hidden: 0.25 });
  expect(share).toBeGreaterThan(0.08);
  expect(share).toBeLessThan(0.4);
});
