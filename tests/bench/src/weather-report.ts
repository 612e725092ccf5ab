import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  dpi,
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  findScale,
  inspectSeams,
  measurePhoto,
  mendPhoto,
  printMm,
  type Raster,
  resampleRaster,
  weatherPhoto,
} from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto, seedRanges } from '@gaugerod/fixtures';
import { alternate, printTimings } from './alternate.js';

const cli = fileURLToPath(new URL('../../../packages/cli/bin/gaugerod.js', import.meta.url));
const course = findCourse('75mm');
const presets = ['settled', 'grimy', 'derelict'] as const;
const bonds = ['stretcher', 'flemish', 'english'] as const;

/**
 * Report what weather keeps to: how like each other two scales of one wall are, clean and weathered, whether parts
 * are the whole cut in two and tiles still repeat, and what it adds to an A4 page.
 *
 * @param words - How many walls, 4 unless told; and the seed to count from.
 */
export async function benchWeather(words: readonly string[]): Promise<void> {
  const count = Number(words[0] ?? 4);
  const seed = Number(words[1] ?? seedRanges.tuning + 90_000);
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-weather-'));
  try {
    const scales: number[][] = [];
    let [same, seamless, tiles] = [0, 0, 0];
    for (let i = 0; i < count; i++) {
      const photo = await drawPhoto(folder, seed + i);
      const preset = presets[i % presets.length] ?? 'settled';
      scales.push(await compareScales(photo, preset));
      if (await areParts(photo, preset)) same++;
      const tile = await isStillTile(photo, seed + i);
      if (tile !== null) tiles++;
      if (tile === true) seamless++;
    }
    const names = [
      ...['clean 300 dpi', 'weathered 300', 'weather alone 300'],
      ...['clean 600', 'weathered 600', 'weather alone 600'],
    ];
    for (const [k, name] of names.entries()) {
      const values = scales.map((each) => each[k] ?? NaN).sort((a, b) => a - b);
      const shown = values.map((value) => value.toFixed(3)).join(' ');
      console.log(`1:148 like 1:76.2, ${name}: ${shown}`);
    }
    console.log(`parts equal the whole: ${same} of ${count}`);
    console.log(`tiles seamless when weathered: ${seamless} of ${tiles}`);
    timePages(await drawPhoto(folder, seed), folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function drawPhoto(folder: string, seed: number): Promise<string> {
  const bond = bonds[seed % bonds.length] ?? 'stretcher';
  const { raster } = drawWall({ bond, coursePx: 40, width: 1400, height: 1000, seed });
  const path = join(folder, `wall-${seed}.png`);
  writeFileSync(path, await encodePhoto(raster, { format: 'png' }));
  const measured = await measurePhoto(path, { course, save: true });
  if (!measured.ok) throw new Error(measured.message);
  return path;
}

async function fill(photo: string, options: Partial<FillPhotoOptions>): Promise<Raster> {
  const output = `${photo}.out.png`;
  const scale = findScale('1:148');
  const made = await fillPhoto(photo, { scale, dpi: dpi(300), ...options, output });
  if (!made.ok) throw new Error(made.message);
  return decodePhoto(readFileSync(output));
}

type Preset = (typeof presets)[number];

// 4 x 3 m of wall. Of clean fills, of weathered ones, and of what the weather leaves of the clean ones' light, which
// is all that it answers for.
async function compareScales(photo: string, preset: Preset): Promise<number[]> {
  const figures: number[] = [];
  for (const dots of [300, 600]) {
    const pairs: Raster[][] = [];
    for (const weather of [undefined, { preset }]) {
      const shown = (ratio: number): Promise<Raster> =>
        fill(photo, {
          scale: findScale(`1:${ratio}`),
          dpi: dpi(dots),
          size: { width: printMm(4000 / ratio), height: printMm(3000 / ratio) },
          ...(weather && { weather }),
        });
      const [small, large] = [await shown(148), await shown(76.2)];
      const pair = [small, resampleRaster(large, small)] as const;
      pairs.push([...pair]);
      figures.push(likeness(pair[0].planes[1], pair[1].planes[1]));
    }
    const [clean = [], aged = []] = pairs;
    const [left, right] = aged.map((raster, i) => leftOf(raster, clean[i] ?? raster));
    if (left !== undefined && right !== undefined) figures.push(likeness(left, right));
  }
  return figures;
}

function leftOf(aged: Raster, clean: Raster): Float32Array {
  const under = clean.planes[1];
  return aged.planes[1].map((light, i) => light / Math.max(0.01, under[i]!));
}

// Pearson's correlation.
function likeness(p: Float32Array, q: Float32Array): number {
  const mean = (plane: Float32Array): number => plane.reduce((sum, v) => sum + v, 0) / plane.length;
  const [mp, mq] = [mean(p), mean(q)];
  let [pq, pp, qq] = [0, 0, 0];
  for (let i = 0; i < p.length; i++) {
    const [u, v] = [p[i]! - mp, q[i]! - mq];
    pq += u * v;
    pp += u * u;
    qq += v * v;
  }
  return pq / Math.sqrt(pp * qq);
}

// 10 dots to the mm: a piece 30 mm wide, and its right part from the 13th on.
async function areParts(photo: string, preset: Preset): Promise<boolean> {
  const part = (width: number, x: number): Promise<Raster> =>
    fill(photo, {
      dpi: dpi(254),
      size: { width: printMm(width), height: printMm(20) },
      datum: { x, y: 0 },
      weather: { preset, foot: 20 },
    });
  const whole = await part(30, 0);
  const right = await part(17, 13);
  return whole.planes.every((plane, channel) =>
    Array.from({ length: whole.height }, (_, y) => y).every((y) => {
      const row = plane.subarray(y * 300 + 130, (y + 1) * 300);
      const cut = right.planes[channel]?.subarray(y * 170, (y + 1) * 170) ?? [];
      return row.every((value, x) => value === cut[x]);
    }),
  );
}

// Null where the photo made no tile that meets itself without weather.
async function isStillTile(photo: string, seed: number): Promise<boolean | null> {
  const [tile, aged] = [`${photo}.tile.png`, `${photo}.aged.png`];
  const mended = await mendPhoto(photo, { output: tile, course });
  if (!mended.ok || !meets(await decodePhoto(readFileSync(tile)))) return null;
  const strengths = { soot: 0.5, grime: 0.5, salts: 0.4, rust: 0.5, patches: 0.4 };
  const given = { course, output: aged, repeat: 'both', seed, ...strengths } as const;
  const weathered = await weatherPhoto(tile, given);
  return weathered.ok && meets(await decodePhoto(readFileSync(aged)));
}

function meets(raster: Raster): boolean {
  const { x, y } = inspectSeams(raster);
  return x.seamless && y.seamless;
}

function timePages(photo: string, folder: string): void {
  const page = [
    'fill',
    photo,
    '--scale',
    '1:148',
    '--size',
    '210x297mm',
    '--quiet',
    '--no-config',
    '-o',
  ];
  const timings = alternate(
    [
      { name: 'A4, 600 dpi, clean', argv: [cli, ...page, join(folder, 'clean.png')] },
      {
        name: 'A4, 600 dpi, settled',
        argv: [cli, ...page, join(folder, 'aged.png'), '--weather', 'settled'],
      },
    ],
    5,
  );
  printTimings(timings);
}
