import {
  createRaster,
  type Point,
  type Raster,
  px,
  realMm,
  renderOverlay,
  resampleRaster,
  toPhotoPoint,
  toRows,
} from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { jointsOf, measurementOf } from '../../support/known-wall.js';

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

test('a span that is off by nothing is neither over nor under', () => {
  const photo = createRaster(400, 300);
  const page = (residualPercent: number): Raster => {
    const [length, courses, used] = [realMm(900), null, true];
    const span = { length, residualPercent, courses, used };
    return renderOverlay(photo, {
      measurement: { ...measurementOf(drawWall()), rectification: null, lattice: null },
      joints: null,
      spans: [200, 250].map((y) => ({ from: { x: 50, y }, to: { x: 350, y }, ...span })),
      corners: null,
    });
  };
  const exact = page(0);
  expect(page(-0.004)).toEqual(exact);
  expect(page(-0.006)).not.toEqual(exact);
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

test('a perpend is a tick where it truly lies, and a marked corner is ringed', () => {
  const wall = drawWall({
    width: 1000,
    height: 640,
    coursePx: 80,
    seed: 31,
    rotation: 4,
    tiltY: 9,
  });
  const { truth, raster } = wall;
  const [, , top = 0, foot = 0] = truth.bedJoints;
  const at = truth.perpendX + 2 * truth.brickPx;
  const corner = { x: 300.5, y: 400.5 };
  const page = renderOverlay(raster, {
    measurement: measurementOf(wall),
    joints: { ...jointsOf(wall), perpends: [{ at, from: top, to: foot }] },
    spans: [],
    corners: [corner, { x: 700.5, y: 410.5 }, { x: 690.5, y: 560.5 }, { x: 310.5, y: 570.5 }],
  });
  const middle = toPhotoPoint(truth.rectification, raster, { x: at, y: (top + foot) / 2 });
  // Sky blue of Okabe and Ito's table, (86, 180, 233): more blue than red by far.
  let [sum, weight] = [0, 0];
  const row = Math.floor(middle.y + 14) * page.width;
  for (let x = Math.floor(middle.x + 58 - 6); x <= middle.x + 58 + 6; x++) {
    const blue = Math.max(0, page.planes[2][row + x]! - page.planes[0][row + x]! - 0.1);
    sum += blue * (x + 0.5);
    weight += blue;
  }
  expect(Math.abs(sum / weight - (middle.x + 58))).toBeLessThan(0.5);
  // Vermilion, four units to the left of the corner: red, and hardly any blue.
  const ring = Math.floor(corner.y + 14) * page.width + Math.floor(corner.x + 58 - 4);
  expect(page.planes[0][ring]! - page.planes[2][ring]!).toBeGreaterThan(0.5);
});

test('a picture that was made smaller is drawn with the numbers of the photo it was made from', () => {
  const wall = drawWall({ width: 1600, height: 1000, coursePx: 44, seed: 817 });
  const measurement = measurementOf(wall);
  const joints = jointsOf(wall);
  const content = { measurement, joints, spans: [], corners: null };
  const small = resampleRaster(wall.raster, { width: 800, height: 500 });
  // Half as many pixels: each is twice as much wall, and a course is half as many of them.
  const lattice = measurement.lattice && {
    ...measurement.lattice,
    course: px(measurement.lattice.course / 2),
  };
  const mmPerPx = { x: 2 * measurement.mmPerPx.x, y: 2 * measurement.mmPerPx.y };
  const ofSmall = { ...content, joints: null, measurement: { ...measurement, mmPerPx, lattice } };
  const size = { width: 1600, height: 1000 };
  const longest = 700;
  const page = renderOverlay(small, ofSmall, { longest, whole: { size, measurement } });
  const same = renderOverlay(wall.raster, { ...content, joints: null }, { longest });
  expect([page.width, page.height]).toEqual([same.width, same.height]);
  // All below the photo, which is 438 high under a margin of 10: words and no pixel else.
  const below = ({ planes, width }: Raster): Float32Array[] =>
    planes.map((plane) => plane.subarray(450 * width));
  expect(below(page)).toEqual(below(same));
  const own = renderOverlay(small, ofSmall, { longest });
  expect(below(own)).not.toEqual(below(same));
});
