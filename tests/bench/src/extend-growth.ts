import { evenLight, extendTile, inspectSeams, type Lattice, px, type Raster } from '@gaugerod/core';
import {
  drawWall,
  judgePeriod,
  sampleWalls,
  seedRanges,
  type WallOptions,
  type WallTruth,
} from '@gaugerod/fixtures';
import { growMarks } from './extend-marks.js';
import { outline } from './extend-outlines.js';

interface Growth {
  readonly bond: string;
  readonly method: string;
  readonly bricks: number;
  /** Likeness to itself at the source's own size, the worse way: plain repeating gives 1. */
  readonly raw: number;
  /** The same with the mean of all bond repeats taken out. */
  readonly beside: number;
  /** The same of a wall as large that was drawn, not grown: what chance and joints alone give. */
  readonly drawn: number;
  /** Seam score along the worse axis: 1 is the border. */
  readonly seam: number;
  readonly period: number;
  /** The same of the wall that was drawn: what judging it is worth. */
  readonly judged: number;
}

/**
 * Report how well walls of three bricks by four courses are grown four times each way.
 *
 * @param words - How many, 40 unless told; and the seed to count from, unless told one of the
 * unseen.
 */
export function benchExtend(words: readonly string[]): void {
  const count = Number(words[0] ?? 40);
  const seed = Number(words[1] ?? seedRanges.unseen + 90_000);
  const walls = sampleWalls(seed, 3 * count)
    .filter(({ params }) => (params.coursePx ?? 0) >= 16)
    .slice(0, count);
  const grown = walls.map(({ params }) => growOne(params)).filter((one) => one !== null);
  reportGrowth(grown, walls.length);
  reportOutlines(walls.slice(0, Math.max(6, count >> 2)).map(({ params }) => params));
  reportMarks(seed, Math.max(13, count));
  reportTime();
}

function reportMarks(seed: number, count: number): void {
  const trials = growMarks(seed, count);
  const shares = trials.flatMap((one) => one.shares).sort((a, b) => a - b);
  const nearest = trials.flatMap((one) => one.nearest).sort((a, b) => a - b);
  const at = (values: readonly number[], share: number): string =>
    (values[Math.floor(share * (values.length - 1))] ?? NaN).toFixed(2);
  console.log(`textures with three marks each, grown 4 times each way: ${trials.length}`);
  console.log(
    `  a mark's share of the tile over that of the photo, ${shares.length} marks: median ${at(shares, 0.5)}, 95 % under ${at(shares, 0.95)}, most ${at(shares, 1)}`,
  );
  console.log(
    `  nearest two copies, photos apart: median ${at(nearest, 0.5)}, 5 % under ${at(nearest, 0.05)}, least ${at(nearest, 0)}`,
  );
}

interface Grown {
  readonly source: Raster;
  readonly tile: Raster;
  readonly truth: WallTruth;
  readonly method: string;
  readonly bricks: number;
  readonly repeats: { readonly x: number; readonly y: number };
}

function grow(params: WallOptions, times: number): Grown | null {
  const { coursePx = 40 } = params;
  const { truth: shape } = drawWall({ ...params, width: 40, height: 40 });
  const { raster, truth } = drawWall({
    ...params,
    width: Math.round(3 * shape.brickPx * (params.bond === 'header' ? 2 : 1)),
    height: Math.round(4 * coursePx),
  });
  const lattice = latticeOf(truth);
  // As the job does, light goes first.
  const { raster: even } = evenLight(raster, {
    along: { x: true, y: true },
    unit: { x: truth.brickPx, y: truth.coursePx },
    joints: { axis: 'y', course: truth.coursePx, offset: truth.courseOffset },
  });
  const repeats = {
    x: Math.ceil((times * raster.width) / truth.repeat.x - 0.02),
    y: Math.ceil((times * raster.height) / truth.repeat.y - 0.02),
  };
  const made = extendTile([{ raster: even, lattice }], {
    width: Math.round(repeats.x * truth.repeat.x),
    height: Math.round(repeats.y * truth.repeat.y),
    repeats,
  });
  if (!made.ok) return null;
  const { raster: tile, method, bricks } = made.value;
  return { source: even, tile, truth, method, bricks: bricks ?? 0, repeats };
}

function latticeOf(truth: WallTruth): Lattice {
  return {
    axis: 'y',
    course: px(truth.coursePx),
    courseOffset: truth.courseOffset,
    brick: px(truth.brickPx),
    repeat: { x: px(truth.repeat.x), y: px(truth.repeat.y) },
    bond: truth.bond,
  };
}

function growOne(params: WallOptions): Growth | null {
  const grown = grow(params, 4);
  if (grown === null) return null;
  const { source, tile, truth, repeats } = grown;
  const { width, height } = tile;
  const wall = drawWall({ ...params, width, height, falloff: 0, vignette: 0 });
  // The whole number of bond repeats that is nearest to the source's size: there joints lie on joints.
  const shift = {
    x: Math.round((Math.max(1, Math.round(source.width / truth.repeat.x)) * width) / repeats.x),
    y: Math.round((Math.max(1, Math.round(source.height / truth.repeat.y)) * height) / repeats.y),
  };
  const worse = (raster: Raster): number =>
    Math.max(alikeAt(raster, shift.x, 0), alikeAt(raster, 0, shift.y));
  const { x, y } = inspectSeams(tile);
  return {
    bond: truth.bond,
    method: grown.method,
    bricks: grown.bricks,
    raw: worse(tile),
    beside: worse(withoutPattern(tile, repeats)),
    drawn: worse(wall.raster),
    seam: Math.max(x.seamScore, y.seamScore),
    period: Math.abs(judgePeriod(tile, truth.coursePx) / truth.coursePx - 1),
    judged: Math.abs(judgePeriod(wall.raster, truth.coursePx) / truth.coursePx - 1),
  };
}

// Normalised autocorrelation around the edges, in square roots of green.
function alikeAt({ width, height, planes }: Raster, right: number, down: number): number {
  const roots = planes[1].map((light) => Math.sign(light) * Math.sqrt(Math.abs(light)));
  const mean = roots.reduce((sum, root) => sum + root, 0) / roots.length;
  let [both, own] = [0, 1e-12];
  for (let y = 0; y < height; y++) {
    const row = ((y + down) % height) * width;
    for (let x = 0; x < width; x++) {
      const here = roots[y * width + x]! - mean;
      both += here * (roots[row + ((x + right) % width)]! - mean);
      own += here * here;
    }
  }
  return both / own;
}

function withoutPattern(
  { width, height, planes }: Raster,
  repeats: { readonly x: number; readonly y: number },
): Raster {
  const across = Math.round(width / repeats.x);
  const down = Math.round(height / repeats.y);
  const sums = new Float64Array(across * down);
  const counts = new Float64Array(across * down);
  const cell = (x: number, y: number): number => {
    const u = Math.floor((((x * repeats.x) / width) % 1) * across);
    const v = Math.floor((((y * repeats.y) / height) % 1) * down);
    return v * across + u;
  };
  const roots = planes[1].map((light) => Math.sqrt(Math.max(0, light)));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      sums[cell(x, y)]! += roots[y * width + x]!;
      counts[cell(x, y)]!++;
    }
  }
  const out = roots.map((root, i) => {
    const at = cell(i % width, Math.floor(i / width));
    const rest = root - sums[at]! / counts[at]!;
    return Math.sign(rest) * rest * rest;
  });
  return { width, height, planes: [out, out, out] };
}

function reportGrowth(grown: readonly Growth[], asked: number): void {
  const show = (name: string, pick: (one: Growth) => number, digits: number): void => {
    const values = grown.map(pick).sort((a, b) => a - b);
    const at = (share: number): string =>
      (values[Math.floor(share * (values.length - 1))] ?? NaN).toFixed(digits);
    console.log(`${name}: median ${at(0.5)}, 95 % under ${at(0.95)}, most ${at(1)}`);
  };
  const share = (test: (one: Growth) => boolean): string =>
    `${grown.filter(test).length} of ${grown.length}`;
  console.log(
    `walls of 3 bricks by 4 courses, grown 4 times each way: ${grown.length} of ${asked}`,
  );
  console.log(`laid of whole bricks: ${share(({ method }) => method === 'bricks')}`);
  const few = grown.filter(({ method }) => method !== 'bricks').map(({ bond }) => bond);
  if (few.length > 0) console.log(`  not: ${few.join(', ')}`);
  show('whole bricks in the source', ({ bricks }) => bricks, 0);
  show('likeness at the source’s size (plain repeating: 1), raw', ({ raw }) => raw, 3);
  show('  the same of a wall that was drawn, never grown', ({ drawn }) => drawn, 3);
  show('  with the mean brick pattern taken out', ({ beside }) => beside, 3);
  console.log(`  0.5 or less raw: ${share(({ raw }) => raw <= 0.5)}`);
  console.log(`    of those that were drawn: ${share(({ drawn }) => drawn <= 0.5)}`);
  console.log(`  0.5 or less without the pattern: ${share(({ beside }) => beside <= 0.5)}`);
  console.log(`seamless by inspection: ${share(({ seam }) => seam <= 1)}`);
  show('  seam score', ({ seam }) => seam, 3);
  show('course off by, %', ({ period }) => 100 * period, 3);
  show('  the same of a wall that was drawn', ({ judged }) => 100 * judged, 3);
}

// Clean, dark bricks in light mortar, so that a threshold finds their outlines.
const clean = {
  brickColour: 'dark-red',
  mortar: 'light',
  coursePx: 40,
  soot: 0,
  lime: 0,
  moss: 0,
  wear: 0.2,
  burnt: 0,
  falloff: 0,
  vignette: 0,
  shadow: 0,
  noise: 0.004,
  exposure: 1.15,
} as const satisfies WallOptions;

function reportOutlines(all: readonly WallOptions[]): void {
  const rows = all.flatMap(({ bond, seed, courseJitter }) => {
    const params = {
      ...clean,
      ...(bond !== undefined && { bond }),
      ...(seed !== undefined && { seed }),
      ...(courseJitter !== undefined && { courseJitter }),
    };
    const grown = grow(params, 4);
    if (grown?.method !== 'bricks') return [];
    const { width, height } = grown.tile;
    const wall = drawWall({ ...params, width, height });
    const { coursePx: course, courseOffset: offset, brickPx } = wall.truth;
    const half = Math.round(brickPx / 2);
    return [
      {
        ghost: alikeAt(grown.tile, half, 0) - alikeAt(wall.raster, half, 0),
        ours: outline(grown.tile, { course, offset: 0 }),
        theirs: outline(wall.raster, { course, offset }),
      },
    ];
  });
  const ratio = (pick: (one: (typeof rows)[number]['ours']) => number): string => {
    const values = rows.map(({ ours, theirs }) => pick(ours) / pick(theirs)).sort((a, b) => a - b);
    const at = (share: number): string =>
      (values[Math.floor(share * (values.length - 1))] ?? NaN).toFixed(3);
    return `median ${at(0.5)}, from ${at(0)} to ${at(1)}`;
  };
  console.log(
    `outlines against those of a wall drawn as large, ours over theirs, ${rows.length} walls`,
  );
  console.log(`  mean length: ${ratio(({ lengths }) => mean(lengths))}`);
  console.log(`  spread of lengths: ${ratio(({ lengths }) => spread(lengths))}`);
  console.log(`  mean height: ${ratio(({ heights }) => mean(heights))}`);
  console.log(`  spread of heights: ${ratio(({ heights }) => spread(heights))}`);
  console.log(`  share of joints: ${ratio(({ joints }) => joints)}`);
  console.log(`  bricks to the picture: ${ratio(({ lengths }) => lengths.length)}`);
  console.log(`  two-toned, 95th percentile: ${ratio(({ halves }) => high(halves))}`);
  console.log(`  bends of bed joints: ${ratio(({ bends }) => mean(bends))}`);
  const ghosts = rows.map(({ ghost }) => ghost).sort((a, b) => a - b);
  console.log(
    `  ghost joints, likeness half a brick along less a drawn wall’s: median ${(ghosts[ghosts.length >> 1] ?? NaN).toFixed(3)}, most ${(ghosts.at(-1) ?? NaN).toFixed(3)}`,
  );
  const bends = rows.map(({ ours }) => mean(ours.bends)).sort((a, b) => a - b);
  console.log(`  bends of bed joints, px: median ${(bends[bends.length >> 1] ?? NaN).toFixed(3)}`);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function spread(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

function high(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(0.95 * (values.length - 1))] ?? NaN;
}

function reportTime(): void {
  const { raster, truth } = drawWall({ coursePx: 24, width: 600, height: 400, seed: 5 });
  const lattice = latticeOf(truth);
  const repeats = { x: Math.round(2048 / truth.repeat.x), y: Math.round(2048 / truth.repeat.y) };
  const ways = {
    bricks: { lattice, repeats },
    courses: { lattice: { ...lattice, bond: null }, repeats },
    patches: { lattice: null, repeats: { x: null, y: null } },
  };
  for (const [name, { lattice: laid, repeats: held }] of Object.entries(ways)) {
    const times = [0, 1, 2, 3, 4].map(() => {
      const start = performance.now();
      extendTile([{ raster, lattice: laid }], { width: 2048, height: 2048, repeats: held });
      return performance.now() - start;
    });
    const middle = times.toSorted((a, b) => a - b)[2] ?? NaN;
    console.log(
      `a tile of 2048 x 2048 of ${name}: ${middle.toFixed(0)} ms, the first ${(times[0] ?? NaN).toFixed(0)} ms`,
    );
  }
}
