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
  toRows,
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
        used: true,
      },
    ],
    corners: null,
  });
  // Vermilion of the same table, (213, 94, 0): its red in linear light is 0.665.
  const at = (14 + 250) * page.width + 14 + 400;
  expect(page.planes[0][at]).toBeCloseTo(0.665, 2);
  expect(page.height).toBeGreaterThan(514 + 60);
});

// On a grey photo, the row of the scale bar: from the first pixel that is no grey to the last. The
// bar has a casing of 1.5 units on either side.
function barOf(page: Raster, window: { left: number; right: number; foot: number }): number {
  const [red] = page.planes;
  let longest = 0;
  for (let y = window.foot - 60; y < window.foot; y++) {
    let [first, last] = [-1, -1];
    let whites = 0;
    for (let x = window.left; x < window.right; x++) {
      const light = red[y * page.width + x]!;
      if (Math.abs(light - 0.375) < 0.01) continue;
      if (first < 0) first = x;
      last = x;
      if (light > 0.99) whites++;
    }
    if (whites > 0.3 * (last - first)) longest = Math.max(longest, last - first + 1);
  }
  return longest - 3;
}

test.each([
  // A bar takes two fifths of the photo's width at most: 1, 2 or 5 with noughts (ISO 3 calls
  // that series R 10/3, rounded).
  { mm: 1.2, bar: 200 },
  { mm: 0.05, bar: 20 },
  { mm: 5.3, bar: 2000 },
  { mm: 1.25, bar: 500 },
])('at $mm mm a pixel a scale bar of $bar mm is as long as that', ({ mm, bar }) => {
  const photo = createRaster(1000, 500);
  photo.planes.forEach((plane) => plane.fill(0.5));
  const page = renderOverlay(photo, {
    measurement: {
      ...measurementOf(drawWall()),
      mmPerPx: { x: mm, y: mm },
      rectification: null,
      lattice: null,
    },
    joints: null,
    spans: [],
    corners: null,
  });
  const length = barOf(page, { left: 20, right: 1000, foot: 514 });
  expect(Math.abs(length - bar / mm)).toBeLessThan(1.5);
});

test('joints that hardly show are broken lines, and none is drawn where the photo is left out', () => {
  const wall = drawWall({ width: 1000, height: 400, coursePx: 50, offsetY: 25, courseJitter: 0 });
  const joints = jointsOf(wall);
  const page = renderOverlay(wall.raster, {
    measurement: measurementOf(wall),
    joints: {
      ...joints,
      beds: joints.beds.map(({ at }, k) => ({ at, shows: k === 3 ? 0.1 : 1 })),
      leftOut: [{ x: 600, y: 100, width: 200, height: 200 }],
    },
    spans: [],
    corners: null,
  });
  const drawnShare = (level: number, from: number, to: number): number => {
    let drawn = 0;
    for (let x = from; x < to; x++) if (yellowAt(page, { x: x + 58, y: level + 14 }) > 0.2) drawn++;
    return drawn / (to - from);
  };
  const [, , whole = 0, broken = 0] = joints.beds.map(({ at }) => at);
  expect(drawnShare(whole, 10, 590)).toBeGreaterThan(0.95);
  expect(drawnShare(broken, 10, 590)).toBeGreaterThan(0.3);
  expect(drawnShare(broken, 10, 590)).toBeLessThan(0.7);
  expect(drawnShare(whole, 605, 795)).toBeLessThan(0.05);
});

test('courses too low for whole lines are drawn in strips, beside strips of bare wall', () => {
  const wall = drawWall({ width: 1000, height: 300, coursePx: 8, courseJitter: 0, seed: 5 });
  const page = renderOverlay(wall.raster, {
    measurement: measurementOf(wall),
    joints: jointsOf(wall),
    spans: [],
    corners: null,
  });
  // Thirteen strips over 1000 px: the first is 0 to 77, bare is 77 to 154.
  const yellowIn = (from: number, to: number): number => {
    let most = 0;
    for (let x = from; x < to; x++) {
      for (let y = 20; y < 200; y++)
        most = Math.max(most, yellowAt(page, { x: x + 58, y: y + 14 }));
    }
    return most;
  };
  expect(yellowIn(5, 70)).toBeGreaterThan(0.3);
  expect(yellowIn(84, 146)).toBe(0);
});

test('where courses stand upright, so do the lines', () => {
  const photo = createRaster(1000, 600);
  photo.planes.forEach((plane) => plane.fill(0.4));
  const page = renderOverlay(photo, {
    measurement: null,
    joints: {
      axis: 'x',
      rectification: null,
      beds: [100.5, 200.5, 300.5, 400.5].map((at) => ({ at, shows: 1 })),
      perpends: [],
      leftOut: [],
    },
    spans: [],
    corners: null,
  });
  // The rod lies above: 58 units from the page's top to the photo's.
  for (const x of [100.5, 200.5, 300.5, 400.5]) {
    expect(yellowAt(page, { x: x + 14, y: 58 + 300 })).toBeGreaterThan(0.2);
    expect(yellowAt(page, { x: x + 14 + 50, y: 58 + 300 })).toBe(0);
  }
});

test('a photo of 24 million pixels is drawn at a third of its size, a small one larger', () => {
  const content = { measurement: null, joints: null, spans: [], corners: null };
  const large = renderOverlay(createRaster(6000, 4000), content);
  expect(large.width).toBe(2000 + 2 * 28);
  const small = renderOverlay(createRaster(100, 50), content);
  expect(small.width).toBe(1000 + 2 * 14);
});

test('lettering and signs stay as they are', async () => {
  const photo = createRaster(400, 130);
  photo.planes.forEach((plane) => plane.fill(0.3));
  const page = renderOverlay(photo, {
    measurement: {
      ...measurementOf(drawWall()),
      reference: {
        ...{ id: 'own', name: 'jumping wizard boxes, 1/4 × 3 (quick)', size: realMm(75) },
        ...{ uncertainty: 0, source: '' },
      },
      mmPerPx: { x: 3.96, y: 2.875 },
      rectification: null,
    },
    joints: {
      axis: 'y',
      rectification: null,
      beds: [8, 33, 58, 83, 108].map((at, k) => ({ at, shows: k === 2 ? 0.1 : 0.9 })),
      perpends: [60, 120, 180, 240].map((at) => ({ at, from: 33, to: 58 })),
      leftOut: [{ x: 300, y: 40, width: 70, height: 60 }],
    },
    spans: [
      {
        from: { x: 30, y: 20 },
        to: { x: 220, y: 28 },
        length: realMm(752.4),
        residualPercent: 0.42,
        courses: null,
        used: true,
      },
    ],
    corners: null,
  });
  await expect(toRows(page)).toMatchGolden('overlay');
});

test('points that are no numbers are refused', () => {
  const wall = drawWall();
  const span = { from: { x: NaN, y: 0 }, to: { x: 9, y: 9 } };
  const content = {
    measurement: measurementOf(wall),
    joints: null,
    spans: [{ ...span, length: null, residualPercent: null, courses: 1, used: true }],
    corners: null,
  };
  expect(() => renderOverlay(wall.raster, content)).toThrow(RangeError);
});
