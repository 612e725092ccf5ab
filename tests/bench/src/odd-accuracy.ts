import { bonds, createRaster, findOdd, type OddPlace, type Raster } from '@gaugerod/core';
import { drawWall, sampleWalls, type WallOptions, type WallTruth } from '@gaugerod/fixtures';

interface Planted {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

// Nothing in it is odd: no burnt brick, no lime, no soot, and bricks of one colour.
const plain = {
  burnt: 0,
  lime: 0,
  soot: 0,
  moss: 0,
  falloff: 0,
  vignette: 0,
  shadow: 0,
  paleHeaders: 0,
  spread: 0.5,
} as const;

/**
 * Report how often plain walls are told to hold an odd place, and how often one brick painted, or a
 * stain, is found.
 *
 * @param seed - A whole number; from the same one the same are drawn.
 * @param count - How many walls.
 */
export function judgeOdd(seed: number, count: number): void {
  let [walls, alarms, places] = [0, 0, 0];
  const found: Record<string, boolean[]> = {};
  const drawn = sampleWalls(seed, 6 * count).filter(
    ({ params }) => params.brickColour !== 'multi' && isAmongMany(params),
  );
  for (const { params } of drawn.slice(0, count)) {
    const { raster, truth } = drawWall({ ...params, ...plain });
    const odd = findOdd(raster);
    walls++;
    if (odd.length > 0) alarms++;
    places += odd.length;
    for (const [name, light] of Object.entries(paints)) {
      const brick = brickOf(truth, raster);
      if (brick === null) continue;
      const hit = findOdd(painted(raster, brick, light)).some((one) => overlaps(one, brick));
      (found[name] ??= []).push(hit);
    }
    for (const [name, keep] of Object.entries(stains)) {
      const size = 1.5 * truth.coursePx;
      const spot = { x: raster.width * 0.3, y: raster.height * 0.35, width: size, height: size };
      const hit = findOdd(stained(raster, spot, keep)).some((one) => overlaps(one, spot));
      (found[name] ??= []).push(hit);
    }
  }
  const share = (100 * alarms) / walls;
  console.log(`plain walls: ${walls}, alarms on ${share.toFixed(1)} %, ${places} places`);
  for (const [name, hits] of Object.entries(found)) {
    const told = (100 * hits.filter(Boolean).length) / hits.length;
    console.log(`${name}: found in ${told.toFixed(1)} % of ${hits.length}`);
  }
}

// Times the light of red, green and blue.
const paints: Readonly<Record<string, readonly [number, number, number]>> = {
  'a brick of a third of the light': [0.33, 0.33, 0.33],
  'a brick of twice the light': [2.1, 2.1, 2.1],
  'a brick as light but another colour': [0.55, 1.12, 1.9],
};
const stains: Readonly<Record<string, number>> = {
  'a stain that keeps a third of the light': 0.33,
  'a stain that keeps half the light': 0.5,
};

// One among a few is not odd, and one of a thousand catches no eye.
function isAmongMany({ height = 512, coursePx = 24 }: WallOptions): boolean {
  const courses = height / coursePx;
  return courses >= 8 && courses <= 40;
}

// A whole brick, from joint to joint.
function brickOf(truth: WallTruth, raster: Raster): Planted | null {
  const [above, below] = truth.bedJoints.slice(3, 5);
  const bond = bonds.find(({ id }) => id === truth.bond);
  const course = bond?.courses[3 % bond.courses.length];
  if (above === undefined || below === undefined || course === undefined) return null;
  if (below > raster.height) return null;
  const { stretcherMm, headerMm, jointMm } = truth.format;
  const faces = course.run.map(
    (face) => (face === 'stretcher' ? stretcherMm : headerMm) / truth.mmPerPx.x,
  );
  const run = faces.reduce((sum, face) => sum + face, 0);
  const first = truth.perpendX + course.shift * run;
  const x = first + Math.ceil((raster.width * 0.35 - first) / run) * run;
  const joint = jointMm / truth.mmPerPx.x;
  const width = (faces[0] ?? truth.brickPx) - joint;
  return { x: x + joint / 2, y: above + joint / 2, width, height: below - above - joint };
}

function painted(raster: Raster, at: Planted, light: readonly [number, number, number]): Raster {
  return changed(raster, (x, y, channel) => {
    const isInside = x >= at.x && x < at.x + at.width && y >= at.y && y < at.y + at.height;
    return isInside ? (light[channel] ?? 1) : 1;
  });
}

function stained(raster: Raster, at: Planted, keep: number): Raster {
  return changed(raster, (x, y) => {
    const across = (2 * (x - at.x - at.width / 2)) / at.width;
    const down = (2 * (y - at.y - at.height / 2)) / at.height;
    const far = Math.hypot(across, down);
    return far >= 1 ? 1 : 1 - (1 - keep) * Math.min(1, 3 * (1 - far));
  });
}

function changed(raster: Raster, times: (x: number, y: number, channel: number) => number): Raster {
  const { width, height, planes } = raster;
  const out = createRaster(width, height);
  for (const [channel, plane] of planes.entries()) {
    const to = out.planes[channel] ?? plane;
    for (let at = 0; at < plane.length; at++) {
      to[at] = plane[at]! * times(at % width, Math.floor(at / width), channel);
    }
  }
  return out;
}

function overlaps(one: OddPlace, other: Planted): boolean {
  return (
    one.x < other.x + other.width &&
    other.x < one.x + one.width &&
    one.y < other.y + other.height &&
    other.y < one.y + one.height
  );
}
