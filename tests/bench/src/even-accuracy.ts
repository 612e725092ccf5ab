import { evenLight, type EvenOptions, type Raster } from '@gaugerod/core';
import {
  drawTexture,
  drawWall,
  sampleTextures,
  sampleWalls,
  seedRanges,
  type WallTruth,
} from '@gaugerod/fixtures';

interface Lit {
  /** Slow light over what was left of it: the same work with and without fall-off, both evened. */
  readonly down: number;
  /** Share of the fall-off left; what the work itself happened to drift by counts for or against. */
  readonly left: number;
  /** Per cent taken out of a picture that had no fall-off. */
  readonly taken: number;
  /** How like its neighbours each part still is: correlation, and spread over before. */
  readonly alike: number;
  readonly kept: number;
  /** Whether a shadow was told of where there was none, and where there was one. */
  readonly falseShadow: boolean;
  readonly trueShadow: boolean;
  readonly lightError: number;
}

/** Light as a camera saw none of it fall off. */
const evenly = { falloff: 0, vignette: 0, shadow: 0, warmth: 0 } as const;
const parts = 8;

/**
 * Report how well light is evened on walls and textures, drawn with and without fall-off.
 *
 * @param words - How many of each, 40 unless told; and the seed to count from.
 */
export function benchEven(words: readonly string[]): void {
  const count = Number(words[0] ?? 40);
  const seed = Number(words[1] ?? seedRanges.tuning + 70_000);
  const walls = sampleWalls(seed, count).map(({ params }) => {
    // Soot and lime lie on the wall, and are none of the light's.
    const clean = { ...params, soot: 0.1, lime: 0.1 };
    const { raster, truth } = drawWall({ ...clean, ...evenly });
    const lit = drawWall({ ...clean, shadow: 0, falloff: 0.2 + (params.falloff ?? 0) }).raster;
    const shaded = drawWall({ ...clean, ...evenly, shadow: 0.4 }).raster;
    return judge({ raster, lit, shaded }, optionsOf(truth));
  });
  report('walls', walls);
  const free = { along: { x: true, y: true }, unit: { x: null, y: null }, joints: null };
  const textures = sampleTextures(seed, count).map(({ params }) => {
    const { raster } = drawTexture({ ...params, ...evenly });
    const lit = drawTexture({ ...params, shadow: 0, falloff: 0.2 + (params.falloff ?? 0) }).raster;
    const shaded = drawTexture({ ...params, ...evenly, shadow: 0.4 }).raster;
    return judge({ raster, lit, shaded }, free);
  });
  report('textures', textures);
  time();
}

function optionsOf({ coursePx, brickPx, courseOffset }: WallTruth): EvenOptions {
  return {
    along: { x: true, y: true },
    unit: { x: brickPx, y: coursePx },
    joints: { axis: 'y', course: coursePx, offset: courseOffset },
  };
}

interface Pictures {
  readonly raster: Raster;
  readonly lit: Raster;
  readonly shaded: Raster;
}

function judge({ raster, lit, shaded }: Pictures, options: EvenOptions): Lit {
  const [plain, evened] = [evenLight(raster, options), evenLight(lit, options)];
  const fine = { x: options.unit.x ?? 30, y: options.unit.y ?? 30 };
  const [before, after] = [details(lit, fine), details(evened.raster, fine)];
  const [product, a, b] = [dot(before, after), dot(before, before), dot(after, after)];
  return {
    down: slow(lit, raster) / slow(evened.raster, plain.raster),
    left: shareLeft({ raster, lit, evened: evened.raster }),
    taken: plain.strengthPercent,
    alike: product / Math.sqrt(a * b),
    kept: Math.sqrt(b / a),
    falseShadow: plain.shadowed > 0 || evened.shadowed > 0,
    trueShadow: evenLight(shaded, options).shadowed > 0,
    lightError: Math.abs(meanOf(evened.raster) / meanOf(lit) - 1),
  };
}

// Deviation, part from part, of how light one picture is against another.
function slow(a: Raster, b: Raster): number {
  const [ours, theirs] = [cells(a, parts, parts), cells(b, parts, parts)];
  const ratios = ours.map((light, i) => light - theirs[i]!);
  const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
  return Math.sqrt(ratios.reduce((sum, ratio) => sum + (ratio - mean) ** 2, 0) / ratios.length);
}

// How much of what fall-off did to a picture is still in it, once evened.
function shareLeft(drawn: Record<'raster' | 'lit' | 'evened', Raster>): number {
  const [even, lit, evened] = [drawn.raster, drawn.lit, drawn.evened].map((raster) =>
    cells(raster, parts, parts),
  );
  if (!even || !lit || !evened) return NaN;
  const light = lit.map((value, i) => value - even[i]!);
  const mean = light.reduce((sum, value) => sum + value, 0) / light.length;
  const about = Array.from(light, (value) => value - mean);
  return (
    dot(
      about,
      Array.from(evened, (value, i) => value - even[i]!),
    ) / dot(about, about)
  );
}

// Each brick, or patch, against the one to its right: slow light says next to nothing of that.
function details(raster: Raster, size: EvenOptions['unit'] & { x: number; y: number }): number[] {
  const across = Math.max(2, Math.round(raster.width / size.x));
  const down = Math.max(2, Math.round(raster.height / size.y));
  const lights = cells(raster, across, down);
  const steps = Array.from(lights.slice(1), (light, i) => light - lights[i]!);
  const within = steps.filter((_, i) => (i + 1) % across !== 0);
  const mean = within.reduce((sum, step) => sum + step, 0) / within.length;
  return within.map((step) => step - mean);
}

// Logarithms of the green light of so many parts across and down.
function cells({ width, height, planes }: Raster, across: number, down: number): Float64Array {
  const sums = new Float64Array(across * down);
  const counts = new Float64Array(across * down);
  for (let y = 0; y < height; y++) {
    const row = Math.floor((y * down) / height) * across;
    for (let x = 0; x < width; x++) {
      const part = row + Math.floor((x * across) / width);
      sums[part]! += planes[1][y * width + x]!;
      counts[part]!++;
    }
  }
  return sums.map((sum, part) => Math.log(Math.max(0, sum / counts[part]!) + 1e-4));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

function meanOf({ planes }: Raster): number {
  return planes[1].reduce((sum, light) => sum + light, 0) / planes[1].length;
}

function report(name: string, all: readonly Lit[]): void {
  const share = (holds: (one: Lit) => boolean): string =>
    `${((100 * all.filter(holds).length) / all.length).toFixed(0)} %`;
  const at = (of: (one: Lit) => number, quantile: number): string => {
    const sorted = all.map(of).sort((a, b) => a - b);
    return (sorted[Math.floor(quantile * (sorted.length - 1))] ?? NaN).toFixed(3);
  };
  const down = (one: Lit): number => one.down;
  console.log(
    `${name}: ${all.length}; slow light down: median ${at(down, 0.5)} times, a quarter under ${at(down, 0.25)}; 10 times or more in ${share((one) => one.down >= 10)}`,
  );
  console.log(
    `  against the work drawn without: of the fall-off a median of ${at((one) => one.left, 0.5)} left, from ${at((one) => one.left, 0.1)} to ${at((one) => one.left, 0.9)} in eight of ten`,
  );
  console.log(
    `  neighbours: spread kept, 5 % ${at((one) => one.kept, 0.05)}, median ${at((one) => one.kept, 0.5)}, 95 % ${at((one) => one.kept, 0.95)}; correlation 5 % ${at((one) => one.alike, 0.05)}`,
  );
  console.log(
    `  without fall-off: median ${at((one) => one.taken, 0.5)} % taken out, 95 % ${at((one) => one.taken, 0.95)} %`,
  );
  console.log(
    `  shadows told of: ${share((one) => one.trueShadow)} of those drawn, ${share((one) => one.falseShadow)} where there was none`,
  );
  console.log(`  mean light kept to ${at((one) => 100 * one.lightError, 1)} % at worst`);
}

function time(): void {
  const { raster, truth } = drawWall({ width: 2000, height: 1500, coursePx: 30, falloff: 0.6 });
  const options = optionsOf(truth);
  const times = Array.from({ length: 9 }, () => {
    const start = performance.now();
    evenLight(raster, options);
    return performance.now() - start;
  }).sort((a, b) => a - b);
  console.log(`3 Mpx: median of nine ${(times[4] ?? NaN).toFixed(0)} ms`);
}
