import { sampleWalls, seedRanges } from '@gaugerod/fixtures';
import { type MendedWall, mendWall } from './mend-wall.js';
import { judgeLines, type SeamLines } from './seam-lines.js';
import {
  type Band,
  type BandContrast,
  bandContrast,
  type Fault,
  plantedSteps,
  seamSteps,
} from './seam-steps.js';

// What a judge must pass, and what it must not.
const faults: readonly { readonly name: string; readonly fault: Fault }[] = [
  { name: 'nothing was joined', fault: {} },
  { name: 'what follows lies 3 px across', fault: { shift: 3 } },
  { name: 'what follows is 1.1 times as light', fault: { gain: 1.1 } },
  { name: 'another piece follows', fault: { away: 0.37 } },
];

/** What became of one seam of a wall. */
interface JudgedBand {
  /** How far its steps lie from those inside: 1 is the border; NaN where nothing tells. */
  readonly steps: number;
  /** The same of bands as wide elsewhere, by {@link faults}. */
  readonly planted: readonly number[];
  readonly contrast: BandContrast;
}

/** What became of one wall. */
export interface JudgedWall {
  readonly bands: readonly JudgedBand[];
  readonly kept: number;
  /** The largest share of the area that whole repeats of the bond hold, in per cent. */
  readonly mayKeep: number;
  /** Bricks that a cut ran through: replaced by whole ones, or left. */
  readonly replaced: number;
  readonly left: number;
  readonly lines: SeamLines | null;
  readonly name: string;
}

/**
 * Report how well walls never seen before are mended.
 *
 * @param words - How many walls, 40 unless told; and the seed to count from, unless told one of the
 * unseen.
 */
export async function benchMend(words: readonly string[]): Promise<void> {
  const count = Number(words[0] ?? 40);
  const seed = Number(words[1] ?? seedRanges.unseen + 70_000);
  const judged: JudgedWall[] = [];
  for (const sample of sampleWalls(seed, count)) {
    const { raster, truth } = await sample.draw();
    const wall = mendWall(raster, truth);
    if (wall !== null) judged.push(...judgeMended(wall));
  }
  reportMended(judged);
}

/**
 * Judge a mended wall.
 *
 * @param wall - The tile, and what it was made of.
 * @returns One judgement, or none where nothing was to mend.
 */
export function judgeMended(wall: MendedWall): JudgedWall[] {
  const { even, tile, truth } = wall;
  if (tile.method === 'none') return [];
  const x = bandOf(wall, 'x');
  const bands = [x, bandOf(wall, 'y')].map((band, i): JudgedBand => {
    // Anywhere, but the same place each time.
    const at = (0.15 + 0.38 * i + truth.coursePx) % 1;
    const planted = faults.map(({ fault }) => plantedSteps(wall, band, fault, at));
    return {
      steps: seamSteps(wall, band),
      planted,
      contrast: bandContrast(wall, band),
    };
  });
  return [
    {
      bands,
      kept: tile.keptPercent,
      mayKeep:
        100 * largestShare(even.width, truth.repeat.x) * largestShare(even.height, truth.repeat.y),
      replaced: tile.healed.replaced,
      left: tile.healed.left,
      lines: tile.joins.x === null ? null : judgeLines(wall, x),
      name: `${truth.bond} at ${truth.coursePx.toFixed(1)} px`,
    },
  ];
}

function largestShare(length: number, repeat: number): number {
  return (Math.floor(length / repeat) * repeat) / length;
}

function bandOf({ even, tile, truth }: MendedWall, axis: 'x' | 'y'): Band {
  const [length, period] =
    axis === 'x' ? [even.width, tile.raster.width] : [even.height, tile.raster.height];
  const width = Math.max(16, Math.min(length - period, Math.round(truth.repeat[axis])));
  return { axis, from: -12, to: Math.min(width + 12, period >> 1) };
}

/**
 * Print what became of walls.
 *
 * @param judged - Each of them.
 */
export function reportMended(judged: readonly JudgedWall[]): void {
  const bands = judged.flatMap((wall) => wall.bands);
  const kept = sorted(judged.map((wall) => wall.kept));
  const told = bands.filter((band) => !Number.isNaN(band.steps));
  console.log(
    `seams mended: ${bands.length}; steps within those inside at the same phase: ${share(told, (band) => band.steps <= 1)} of ${told.length} that can be judged`,
  );
  for (const [i, { name }] of faults.entries()) {
    const figures = told.map(({ planted }) => planted[i]!).filter((one) => !Number.isNaN(one));
    console.log(`  the same elsewhere, where ${name}: ${share(figures, (one) => one <= 1)}`);
  }
  const contrasts = sorted(bands.map(({ contrast }) => contrast.overMean));
  console.log(
    `contrast of the band over its two pieces' mean: 0.95 to 1.05 in ${share(contrasts, (one) => one >= 0.95 && one <= 1.05)}; 5 % ${at(contrasts, 0.05)}, median ${at(contrasts, 0.5)}, 95 % ${at(contrasts, 0.95)}`,
  );
  console.log(
    `  at least 0.95 of the lower, at most 1.05 of the higher: ${share(bands, ({ contrast }) => contrast.overLower >= 0.95 && contrast.overHigher <= 1.05)}; one over the other within 0.95 to 1.05: ${share(bands, ({ contrast }) => contrast.overHigher >= 0.95 * contrast.overLower)}`,
  );
  console.log(
    `area kept: least ${at(kept, 0)} %, median ${at(kept, 0.5)} %; less than 60 % though whole repeats allow it: ${judged.filter((wall) => wall.kept < 60 && wall.mayKeep >= 60).length}`,
  );
  console.log(
    `bricks that a cut ran through: replaced by whole ones ${sum(judged.map((wall) => wall.replaced))}, left ${sum(judged.map((wall) => wall.left))}`,
  );
  const lines = judged.flatMap((wall) => (wall.lines === null ? [] : [wall.lines]));
  print(lines, 'course and brick kept to 0.3 %', ({ periodOff }) => 100 * periodOff, 0.3);
  print(lines, 'bed joints across the seam straight to 0.25 px', ({ broken }) => broken, 0.25);
  print(lines, '  the same where nothing was joined', (line) => line.brokenElsewhere, 0.25);
  print(lines, 'likeness half a brick on raised by 0.03 at most', ({ ghost }) => ghost, 0.03);
  print(lines, '  the same of a piece as large, not joined', (line) => line.ghostElsewhere, 0.03);
  const grains = sorted(lines.map(({ grain }) => grain));
  console.log(
    `fine grain of the band over elsewhere: 5 % ${at(grains, 0.05)}, median ${at(grains, 0.5)}, 95 % ${at(grains, 0.95)}`,
  );
}

function print(
  lines: readonly SeamLines[],
  what: string,
  figure: (line: SeamLines) => number,
  most: number,
): void {
  const figures = sorted(lines.map(figure));
  console.log(
    `${what}: ${share(figures, (one) => one <= most)}; median ${at(figures, 0.5)}, 95 % ${at(figures, 0.95)}, worst ${at(figures, 1)}`,
  );
}

function share<Item>(items: readonly Item[], holds: (item: Item) => boolean): string {
  return `${((100 * items.filter(holds).length) / items.length).toFixed(1)} %`;
}

function sum(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}

function sorted(values: readonly number[]): readonly number[] {
  return values.toSorted((a, b) => a - b);
}

function at(values: readonly number[], quantile: number): string {
  return (values[Math.floor(quantile * (values.length - 1))] ?? NaN).toFixed(3);
}
