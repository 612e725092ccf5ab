import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  dpi,
  findScale,
  findSection,
  makeRelief,
  type MakeReliefOptions,
  measurePhoto,
  type Raster,
  realMm,
} from '@gaugerod/core';
import { decodePhoto, drawTexture, encodePhoto } from '@gaugerod/fixtures';
import { take } from './fill-speed.js';

const cli = fileURLToPath(new URL('../../../packages/cli/bin/gaugerod.js', import.meta.url));

// EN 10365, in mm: depth and thickness of the flanges, as the catalogue names its sources.
const sections = [
  { name: 'UB 533x210x92', depth: 533.1, flange: 15.6 },
  { name: 'HE 300 B', depth: 300, flange: 19 },
  { name: 'IPE 300', depth: 300, flange: 10.7 },
] as const;
const ratios = [43.5, 76.2, 148];

/**
 * An A3 sheet of 35 girders at 600 dpi over a photo whose measurement was kept, as a whole process; how like the
 * photo's texture a girder is, row by row; and how far its edges lie from the catalogue's sizes.
 *
 * @param words - Counted rounds, 5 unless told.
 */
export async function benchRelief(words: readonly string[]): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-relief-'));
  try {
    const photo = await drawRust(folder);
    timeSheet(photo, folder, Number(words[0] ?? 5));
    await compareTexture(photo, folder);
    await compareEdges(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

// 3.6 x 2.7 m of rust at 1.5 mm a pixel.
async function drawRust(folder: string): Promise<string> {
  const { raster } = drawTexture({ texture: 'rust', width: 2400, height: 1800, seed: 9 });
  const path = join(folder, 'rust.png');
  writeFileSync(path, await encodePhoto(raster, { format: 'png' }));
  const span = [
    { x: 200, y: 900 },
    { x: 1200, y: 900 },
  ] as const;
  const reference = { spans: [span], lengths: [{ length: realMm(1500) }] };
  const measured = await measurePhoto(path, { ...reference, save: true });
  if (!measured.ok) throw new Error(measured.message);
  return path;
}

// 22.6 m at 1:76.2 are 296.6 mm; 35 girders of 7 mm, 5 mm apart, 414.3 mm.
function timeSheet(photo: string, folder: string, rounds: number): void {
  const output = join(folder, 'sheet.png');
  const piece = ['--section', 'UB 533x210x92', '--length', '22.6m', '--scale', '1:76.2'];
  const pieces = ['--copies', '35', '--gap', '5mm', '-o', output, '--quiet'];
  const all = Array.from({ length: rounds + 1 }, () =>
    take([cli, 'relief', photo, ...piece, ...pieces]),
  ).slice(1);
  const middle = (key: 'wall' | 'processor'): string =>
    (all.map((taken) => taken[key]).toSorted((a, b) => a - b)[rounds >> 1] ?? NaN).toFixed(0);
  const peak = Math.max(...all.map((taken) => taken.peak)).toFixed(0);
  const size = (statSync(output).size / 1e6).toFixed(1);
  console.log(
    `A3, 35 girders: ${middle('wall')} ms (2000 wanted), processor ${middle('processor')} ms, peak ${peak} MiB, ${size} MB`,
  );
}

async function draw(
  path: string | null,
  options: Omit<MakeReliefOptions, 'output'>,
  output: string,
): Promise<Raster> {
  const made = await makeRelief(path, { ...options, output });
  if (!made.ok) throw new Error(made.message);
  return decodePhoto(readFileSync(output));
}

async function compareTexture(photo: string, folder: string): Promise<void> {
  for (const ratio of ratios) {
    const piece = {
      ...{ section: findSection('UB 533x210x92'), scale: findScale(`1:${ratio}`) },
      ...{ length: realMm(100 * ratio), dpi: dpi(600) },
    };
    const output = join(folder, 'texture.png');
    const flat = await draw(photo, { ...piece, strength: 0 }, output);
    const lit = await draw(photo, piece, output);
    const rows = Array.from({ length: lit.height }, (_, y) =>
      likeness(rowOf(flat, y), rowOf(lit, y)),
    ).toSorted((a, b) => a - b);
    const shown = [rows[0], rows[rows.length >> 1]].map((value = NaN) => value.toFixed(3));
    console.log(
      `texture of ${rows.length} rows at 1:${ratio} like the flat strip's: least ${shown[0]}, middle ${shown[1]} (0.8 wanted)`,
    );
  }
}

// As encoded: what eyes compare.
function rowOf({ width, planes }: Raster, y: number): number[] {
  return Array.from(planes[1].subarray(y * width, (y + 1) * width), Math.cbrt);
}

// Pearson's correlation.
function likeness(p: readonly number[], q: readonly number[]): number {
  const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;
  const [mp, mq] = [mean(p), mean(q)];
  let [pq, pp, qq] = [0, 0, 0];
  p.forEach((value, i) => {
    const [a, b] = [value - mp, (q[i] ?? 0) - mq];
    pq += a * b;
    pp += a * a;
    qq += b * b;
  });
  return pq / Math.sqrt(pp * qq);
}

// A line prints at 0.2 mm or more (common practice, no source): a thinner flange is drawn as thick as that.
const leastMm = 0.2;

// Over one colour each row is of one shade. Told is how far the nearest edge that is drawn lies from where the
// catalogue has it.
async function compareEdges(folder: string): Promise<void> {
  for (const { name, depth, flange } of sections) {
    for (const ratio of ratios) {
      const piece = {
        ...{ section: findSection(name), scale: findScale(`1:${ratio}`) },
        ...{ length: realMm(20 * ratio), dpi: dpi(600) },
      };
      const { planes, width, height } = await draw(null, piece, join(folder, 'edges.png'));
      const column = Array.from({ length: height }, (_, y) => planes[1][y * width] ?? NaN);
      const toDots = (mm: number): number => (mm / 25.4) * 600;
      const deep = toDots(depth / ratio);
      const thick = toDots(Math.max(leastMm, flange / ratio));
      const off = (height - deep) / 2;
      const edges = edgesOf(column);
      const far = [off + thick, off + deep - thick].map((at) =>
        Math.min(...edges.map((edge) => Math.abs(edge - at))).toFixed(2),
      );
      const least = flange / ratio < leastMm ? `, drawn ${leastMm} mm thick,` : '';
      console.log(
        `${name} at 1:${ratio}: flanges${least} ${far.join(' and ')} dots off, depth ${Math.abs(height - deep).toFixed(2)} (1 wanted)`,
      );
    }
  }
}

// Where a row differs from the one above by a quarter of the most that any does.
function edgesOf(column: readonly number[]): number[] {
  const steps = column.map((value, y) => Math.abs(value - (column[y - 1] ?? value)));
  const least = Math.max(...steps) / 4;
  return steps.flatMap((step, y) => (step >= least ? [y] : []));
}
