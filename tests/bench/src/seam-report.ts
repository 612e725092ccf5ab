import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fillPhoto, findCourse, findScale, parsePrintSize, type Raster } from '@gaugerod/core';
import {
  decodePhoto,
  encodePhoto,
  judgePeriod,
  sampleWalls,
  seedRanges,
  type WallTruth,
} from '@gaugerod/fixtures';
import { type JudgedWall, judgeMended, reportMended } from './mend-report.js';
import { mendWall } from './mend-wall.js';

/**
 * Report how well walls never seen before are mended and filled, by means of its own.
 *
 * @param words - How many walls, 100 unless told; and the seed to count from, unless told one of
 * the unseen.
 */
export async function benchSeams(words: readonly string[]): Promise<void> {
  const count = Number(words[0] ?? 100);
  const seed = Number(words[1] ?? seedRanges.unseen + 70_000);
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-seams-'));
  const mended: JudgedWall[] = [];
  const fills: Filled[] = [];
  let refused = 0;
  try {
    for (const sample of sampleWalls(seed, count)) {
      const { raster, truth } = await sample.draw();
      const wall = mendWall(raster, truth);
      if (wall !== null) mended.push(...judgeMended(wall));
      const fill = await fillOne(folder, { raster, truth });
      if (fill === null) refused++;
      else fills.push(fill);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  reportMended(mended);
  reportFills(fills, refused);
}

interface Filled {
  readonly sizeExact: boolean;
  readonly periodError: number;
  /** Null where the page does not hold a whole tile to average over. */
  readonly lightError: number | null;
  readonly name: string;
}

async function fillOne(
  folder: string,
  { raster, truth }: { readonly raster: Raster; readonly truth: WallTruth },
): Promise<Filled | null> {
  const photo = join(folder, 'wall.png');
  const output = join(folder, 'fill.png');
  writeFileSync(photo, await encodePhoto(raster, { format: 'png' }));
  const filled = await fillPhoto(photo, {
    output,
    course: findCourse(`${truth.courseMm.toFixed(4)}mm`),
    scale: findScale('OO'),
    size: parsePrintSize('80x60mm'),
  });
  if (!filled.ok) return null;
  const page = await decodePhoto(readFileSync(output));
  const { tile } = filled.value;
  // 4 mm to the foot is 1:76.2; 25.4 mm to the inch (Yard and Pound Agreement, 1959).
  const truly = (truth.courseMm / 76.2 / 25.4) * 600;
  const window = { width: tile.widthPx, height: tile.heightPx };
  const holds = window.width <= page.width && window.height <= page.height;
  return {
    // 80 and 60 mm are 1889.76 and 1417.32 dots.
    sizeExact: page.width === 1890 && page.height === 1417,
    periodError: judgePeriod(page, truly) / truly - 1,
    lightError: holds ? meanOf(page, window) / meanOf(raster, raster) - 1 : null,
    name: `${truth.bond} at ${truth.coursePx.toFixed(1)} px`,
  };
}

// Green stands for all.
function meanOf(
  raster: Raster,
  window: { readonly width: number; readonly height: number },
): number {
  const { width, height } = window;
  const green = raster.planes[1];
  let sum = 0;
  for (let y = 0; y < height; y++) {
    for (let at = y * raster.width; at < y * raster.width + width; at++) sum += green[at]!;
  }
  return sum / (width * height);
}

function reportFills(fills: readonly Filled[], refused: number): void {
  const periods = sorted(fills.map((fill) => 100 * Math.abs(fill.periodError)));
  const lit = fills.map((fill) => fill.lightError).filter((error) => error !== null);
  const lights = sorted(lit.map((error) => 100 * Math.abs(error)));
  console.log(`fills: ${fills.length}, refused: ${refused}`);
  console.log(`size exact: ${share(fills, (fill) => fill.sizeExact)}`);
  console.log(
    `course within 0.5 %: ${share(fills, (fill) => Math.abs(fill.periodError) <= 0.005)}; median ${at(periods, 0.5)} %, 95 % ${at(periods, 0.95)} %, worst ${at(periods, 1)} %`,
  );
  for (const { name, periodError } of fills.filter((fill) => Math.abs(fill.periodError) > 0.005)) {
    console.log(`  off: ${name}, ${(100 * periodError).toFixed(2)} %`);
  }
  console.log(
    `mean light within 1 %: ${share(lit, (error) => Math.abs(error) <= 0.01)} of ${lit.length}; worst ${at(lights, 1)} %`,
  );
}

function share<Item>(items: readonly Item[], holds: (item: Item) => boolean): string {
  return `${((100 * items.filter(holds).length) / items.length).toFixed(1)} %`;
}

function sorted(values: readonly number[]): readonly number[] {
  return values.toSorted((a, b) => a - b);
}

function at(values: readonly number[], quantile: number): string {
  return (values[Math.floor(quantile * (values.length - 1))] ?? NaN).toFixed(3);
}
