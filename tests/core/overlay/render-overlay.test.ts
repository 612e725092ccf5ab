import {
  createRaster,
  type FoundJoints,
  type Measurement,
  type Point,
  px,
  type Raster,
  realMm,
  renderOverlay,
  toPhotoPoint,
} from '@gaugerod/core';
import { drawWall, type Drawn, type WallTruth } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// Yellow of Okabe and Ito's table, (240, 228, 66) in sRGB: far more green than blue, as no photo
// is that was made paler and greyer. Green less blue is then how much of a pixel the line covers.
function yellowAt({ width, height, planes }: Raster, { x, y }: Point): number {
  const column = Math.floor(x);
  const row = Math.floor(y);
  if (column < 0 || column >= width || row < 0 || row >= height) return 0;
  const at = row * width + column;
  return Math.max(0, planes[1][at]! - planes[2][at]! - 0.1);
}

// Where a yellow line crosses, up or down from a place: the mean of the rows by how yellow they are.
function lineNear(page: Raster, { x, y }: Point, reach: number): number {
  let sum = 0;
  let weight = 0;
  for (let row = Math.floor(y - reach); row <= y + reach; row++) {
    const yellow = yellowAt(page, { x, y: row });
    sum += yellow * (row + 0.5);
    weight += yellow;
  }
  return sum / weight;
}

function measurementOf({ truth }: Drawn<WallTruth>): Measurement {
  const { mmPerPx, rectification, coursePx, courseOffset } = truth;
  return {
    method: 'courses',
    reference: { id: 'own', name: 'course of 75 mm', size: realMm(75), uncertainty: 0, source: '' },
    mmPerPx,
    uncertaintyPercent: 0.4,
    budget: [],
    confidence: 0.97,
    rectification,
    lattice: {
      axis: 'y',
      course: px(coursePx),
      courseOffset,
      brick: null,
      repeat: { x: null, y: null },
      bond: null,
    },
  };
}

function jointsOf({ truth }: Drawn<WallTruth>): FoundJoints {
  return {
    axis: 'y',
    rectification: truth.rectification,
    beds: truth.bedJoints.map((at) => ({ at, shows: 1 })),
    perpends: [],
    leftOut: [],
  };
}

// The photo lies on the page at its own size where it is 1000 to 2400 px wide: beside the rod, 58
// units of a thousandth of its long side, and below a margin of 14.
const views = [
  { name: 'level', rotation: 0, tiltX: 0, tiltY: 0, lens: 0 },
  { name: 'crooked', rotation: 6, tiltX: 0, tiltY: 0, lens: 0 },
  { name: 'in perspective, through a bent lens', rotation: -3, tiltX: 12, tiltY: -7, lens: 0.03 },
] as const;

test.each(views)('every bed joint is drawn where it truly lies, $name', (view) => {
  const wall = drawWall({ width: 1000, height: 640, coursePx: 44, seed: 811, ...view });
  const page = renderOverlay(wall.raster, {
    measurement: measurementOf(wall),
    joints: jointsOf(wall),
    spans: [],
    corners: null,
  });
  const corner = { x: 58, y: 14 };
  let seen = 0;
  for (const level of wall.truth.bedJoints) {
    for (const across of [120, 340, 560, 780, 940]) {
      // Down the photo's column until the level picture's joint is met: the wall's own geometry.
      const at = toPhotoPoint(wall.truth.rectification, wall.raster, { x: across, y: level });
      if (at.x < 10 || at.x > 990 || at.y < 10 || at.y > 560) continue;
      seen++;
      // A line that falls is met half a column to either side of the point.
      const found = lineNear(page, { x: at.x + corner.x, y: at.y + corner.y }, 6);
      expect(Math.abs(found - (at.y + corner.y))).toBeLessThan(0.5);
    }
  }
  expect(seen).toBeGreaterThan(40);
});

test('a photo without joints still gets its span, its scale bar and its caption', () => {
  const photo = createRaster(1000, 500);
  const page = renderOverlay(photo, {
    measurement: { ...measurementOf(drawWall()), rectification: null, lattice: null },
    joints: null,
    spans: [
      {
        from: { x: 100, y: 250 },
        to: { x: 900, y: 250 },
        length: realMm(3600),
        residualPercent: null,
        courses: null,
      },
    ],
    corners: null,
  });
  // Vermilion of the same table, (213, 94, 0): its red in linear light is 0.665.
  const at = (14 + 250) * page.width + 14 + 400;
  expect(page.planes[0][at]).toBeCloseTo(0.665, 2);
  expect(page.height).toBeGreaterThan(514 + 60);
});

test('points that are no numbers are refused', () => {
  const wall = drawWall();
  const span = { from: { x: NaN, y: 0 }, to: { x: 9, y: 9 } };
  const content = {
    measurement: measurementOf(wall),
    joints: null,
    spans: [{ ...span, length: null, residualPercent: null, courses: 1 }],
    corners: null,
  };
  expect(() => renderOverlay(wall.raster, content)).toThrow(RangeError);
});
