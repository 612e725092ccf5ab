import { bonds, createRaster, cropRaster, type Raster, resampleRaster } from '@gaugerod/core';
import {
  drawCorrugated,
  drawRivetedPlate,
  drawTexture,
  drawWall,
  drawWork,
  sampleWalls,
  type CourseTruth,
  type TextureKind,
  type WallTruth,
  workKinds,
  type WorkOptions,
} from '@gaugerod/fixtures';
import { turnRaster } from './turn-raster.js';

/** A picture that truly repeats one above the other, and how it is made with less of it. */
export interface RepeatingCut {
  /** What it shows. */
  readonly name: string;
  /** Pixels of a course, or of a brick, along the way it repeats; null where it has none. */
  readonly unit: number | null;
  /** Whether joints cross the wrap, and how far apart they lie; null where none do. */
  readonly across: number | null;
  /** Pixels by which courses differ in height as they are laid, as a deviation. */
  readonly wander: number;
  /** Whether it is grain alone, which repeats wherever it is cut. */
  readonly isGrain: boolean;
  /** 0 up to 1, the same for the same picture. */
  readonly lot: number;
  /** Make it, with so many rows less before the wrap, and begun so many rows higher. */
  readonly make: (shorter: number, higher: number) => Raster;
  /** The same rows as in `make(0, 0)`, but cut straight through what is staggered there; or null. */
  readonly straight: (() => Raster) | null;
}

// No light of its own, nor what the weather left over several metres: what differs between two ends is
// the work itself.
const level = { clouds: 0, falloff: 0, vignette: 0, shadow: 0, soot: 0, lime: 0, moss: 0 } as const;

// Fewer courses, or bricks along them, have no inside to compare with.
const leastUnits = 3;

const lotOf = (index: number): number => (index * 0.618) % 1;

/**
 * Draw walls that repeat: half of them cut from bed joint to bed joint, half along perpends and laid
 * on their side.
 *
 * @param seed - A whole number; from the same one the same are drawn.
 * @param count - How many.
 * @returns How each is cut.
 */
export function repeatingWalls(seed: number, count: number): RepeatingCut[] {
  return sampleWalls(seed, 4 * count)
    .filter(({ params }) => (params.coursePx ?? 0) >= 16)
    .slice(0, count)
    .map(({ params }, index) => {
      const drawn = drawWall({ ...params, ...level });
      return index % 2 === 0
        ? cutAtBeds(drawn, `wall, ${drawn.truth.bond}`, index)
        : cutAtPerpends(drawn, index);
    })
    .filter((cut) => cut !== null);
}

/**
 * Draw roofs, blocks, boards, sheets and plates that repeat from course to course.
 *
 * @param seed - A whole number; from the same one the same are drawn.
 * @param count - How many; kinds are counted off.
 * @returns How each is cut.
 */
export function repeatingWorks(seed: number, count: number): RepeatingCut[] {
  return Array.from({ length: count }, (_, index) => {
    const work = workKinds[index % workKinds.length] ?? 'blocks';
    const coursePx = 18 * 5 ** lotOf(index + 3) * (work === 'riveted-plate' ? 2 : 1);
    const draw = drawClean[work] ?? drawWork;
    const drawn = draw({
      ...level,
      work,
      coursePx,
      width: 360 + Math.round(200 * lotOf(index + 5)),
      height: Math.round(Math.max(400, 7.5 * coursePx)),
      blur: 0.3 + 0.6 * lotOf(index + 7),
      seed: seed + index,
    });
    return cutAtBeds(drawn, work, index);
  }).filter((cut) => cut !== null);
}

// Rust runs over several plates and sheets, and does not repeat.
const drawClean: Readonly<Partial<Record<string, (options: WorkOptions) => Drawn>>> = {
  'riveted-plate': (options) => drawRivetedPlate({ ...options, rust: 0 }),
  corrugated: (options) => drawCorrugated({ ...options, rust: 0 }),
};

// Made of lumps in a square of 2048 pixels that goes on at its other side.
const lumpsEvery = 2048;
const margin = 2;
const kinds: readonly TextureKind[] = [
  'render',
  'stucco',
  'rust',
  'bark',
  'grass',
  'hedge',
  'strata',
  'concrete',
  'sand',
  'plain',
  'thatch',
  'gravel-bands',
];

/**
 * Draw textures without courses that repeat.
 *
 * @param seed - A whole number; from the same one the same are drawn.
 * @param count - How many; kinds are counted off.
 * @returns How each is cut.
 */
export function repeatingTextures(seed: number, count: number): RepeatingCut[] {
  return Array.from({ length: count }, (_, index) => {
    const texture = kinds[index % kinds.length] ?? 'render';
    const times = index % 2 === 0 ? 4 : 2;
    const width = 256 * times;
    const { raster } = drawTexture({
      ...level,
      texture,
      width,
      height: lumpsEvery + 2 * margin,
      mmPerPx: (0.7 * 4 ** lotOf(index + 2)) / times,
      blur: (0.3 + 0.6 * lotOf(index + 7)) * times,
      noise: 0.006 * times,
      seed: seed + index,
    });
    const size = lumpsEvery / times;
    const tile = resampleRaster(
      cropRaster(raster, { x: 0, y: margin, width, height: lumpsEvery }),
      {
        width: width / times,
        height: size,
        wrap: { x: false, y: true },
      },
    );
    return {
      name: texture,
      unit: null,
      across: null,
      wander: 0,
      isGrain: texture === 'plain',
      lot: lotOf(index),
      make: (shorter: number) =>
        rows(rolled(tile, Math.round(lotOf(index) * size)), 0, size - shorter),
      straight: null,
    };
  });
}

// Begun at another row: what a lens and light do at a photo's edge is then not at the wrap.
function rolled({ width, height, planes }: Raster, by: number): Raster {
  const out = createRaster(width, height);
  for (const [channel, plane] of planes.entries()) {
    out.planes[channel]?.set(plane.subarray(by * width), 0);
    out.planes[channel]?.set(plane.subarray(0, by * width), (height - by) * width);
  }
  return out;
}

interface Drawn {
  readonly raster: Raster;
  readonly truth: CourseTruth;
}

function cutAtBeds(drawn: Drawn, name: string, index: number): RepeatingCut | null {
  const { raster, truth } = drawn;
  // Butts of boards and laps of sheets come where they may.
  const isFree = name === 'boards' || name === 'corrugated';
  const courses = isFree ? 1 : Math.max(1, Math.round(truth.repeat.y / truth.coursePx));
  const joints = name === 'corrugated' ? truth.bedJoints.slice(1, 9) : truth.bedJoints;
  const [top, height] = findWindow(joints, courses);
  if (!(height >= leastUnits * truth.coursePx) || top + height > raster.height) return null;
  return {
    name,
    unit: truth.coursePx,
    across: null,
    wander: wanderOf(joints),
    isGrain: false,
    lot: lotOf(index),
    make: (shorter, higher) => rows(raster, Math.max(0, top - higher), height - shorter),
    straight: null,
  };
}

// From one joint to another, as far as the picture goes, that are nearest to whole pixels apart.
function findWindow(joints: readonly number[], courses: number): readonly [number, number] {
  const repeats = Math.floor((joints.length - 1) / courses);
  let best: readonly [number, number] = [0, 0];
  let least = Infinity;
  for (const fewer of repeats > 4 ? [0, 1] : [0]) {
    const count = (repeats - fewer) * courses;
    for (let first = 0; first + count < joints.length; first += 1) {
      const top = joints[first]!;
      const height = joints[first + count]! - top;
      const off = Math.abs(height - Math.round(height));
      if (off >= least) continue;
      least = off;
      best = [Math.round(top), Math.round(height)];
    }
  }
  return best;
}

function wanderOf(joints: readonly number[]): number {
  const heights = joints.slice(1).map((joint, at) => joint - joints[at]!);
  const mean = heights.reduce((sum, height) => sum + height, 0) / heights.length;
  const squares = heights.reduce((sum, height) => sum + (height - mean) ** 2, 0);
  return Math.sqrt(squares / Math.max(1, heights.length - 1));
}

function cutAtPerpends(
  drawn: { readonly raster: Raster; readonly truth: WallTruth },
  index: number,
): RepeatingCut | null {
  const { raster, truth } = drawn;
  const bond = bonds.find(({ id }) => id === truth.bond);
  const repeats = Math.floor((raster.width - 2 * truth.repeat.x) / truth.repeat.x);
  // Half a stretcher of header bond is a whole brick.
  const unit = Math.min(truth.brickPx, truth.repeat.x);
  const width = Math.round(repeats * truth.repeat.x);
  if (bond === undefined || width < leastUnits * unit) return null;
  const base = Math.ceil(truth.repeat.x);
  const joints = truth.bedJoints;
  const starts = Int32Array.from({ length: raster.height }, (_, y) => {
    const above = joints.findLastIndex((joint) => joint <= y);
    const count = bond.courses.length;
    const course = bond.courses[(above + count) % count];
    const { stretcherMm, headerMm } = truth.format;
    const lengths = course?.run.map((face) => (face === 'stretcher' ? stretcherMm : headerMm));
    const runPx = (lengths ?? [stretcherMm]).reduce((sum, mm) => sum + mm, 0) / truth.mmPerPx.x;
    const first = truth.perpendX + (course?.shift ?? 0) * runPx;
    return Math.round(first + Math.ceil((base - first) / runPx) * runPx);
  });
  const staggered = (shorter: number): Raster => {
    const size = width - shorter;
    const out = createRaster(size, raster.height);
    for (let channel = 0; channel < 3; channel++) {
      const from = raster.planes[channel]!;
      const to = out.planes[channel]!;
      for (let y = 0; y < raster.height; y++) {
        for (let x = 0; x < size; x++) {
          const at = base + x;
          to[y * size + x] = from[y * raster.width + (at < starts[y]! ? at + size : at)]!;
        }
      }
    }
    return turnRaster(out);
  };
  return {
    name: `wall on its side, ${truth.bond}`,
    unit,
    across: truth.coursePx,
    wander: wanderOf(joints),
    isGrain: false,
    lot: lotOf(index),
    make: staggered,
    straight: () => turnRaster(cropRaster(raster, { x: base, y: 0, width, height: raster.height })),
  };
}

function rows(raster: Raster, top: number, height: number): Raster {
  return cropRaster(raster, { x: 0, y: top, width: raster.width, height });
}
