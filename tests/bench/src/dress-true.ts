import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dressDrawing, findCourse, findScale, parsePaintKey } from '@gaugerod/core';
import { drawWall, encodePhoto, renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';

type Matrix = readonly [number, number, number, number, number, number];

// One outline, 20 mm square on paper about the middle of its cell of 30 mm.
interface Square {
  readonly markup: string;
  readonly turned: number;
}

const [across, down] = [4, 2];
const cellMm = 30;
const dotsPerMm = 600 / 25.4;
const bonds = ['stretcher', 'flemish', 'english', 'stack'];
const scales = ['1:43.5', '1:76.2', '1:87', '1:148'];

// Marsaglia's xorshift, 32 bits.
function randomFrom(seed: number): () => number {
  let state = (seed ^ 0x9e3779b9) | 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

function times(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[2] * b[1],
    a[1] * b[0] + a[3] * b[1],
    a[0] * b[2] + a[2] * b[3],
    a[1] * b[2] + a[3] * b[3],
    a[0] * b[4] + a[2] * b[5] + a[4],
    a[1] * b[4] + a[3] * b[5] + a[5],
  ];
}

function back([a, b, c, d, e, f]: Matrix, x: number, y: number): readonly [number, number] {
  const area = a * d - b * c;
  return [(d * (x - e) - c * (y - f)) / area, (a * (y - f) - b * (x - e)) / area];
}

// A group in a group: moved, turned, stretched, leant, mirrored, as chance has it.
function drawSquare(random: () => number, [left, top]: readonly [number, number]): Square {
  const angle = Math.round(360 * random() - 180);
  const [cos, sin] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
  const [sx, sy] = [0.2 + 4 * random(), 0.2 + 4 * random()];
  const lean = random() < 0.3 ? Math.round(50 * random() - 25) : 0;
  const flip = random() < 0.3 ? -1 : 1;
  const turn: Matrix = [cos, sin, -sin, cos, left, top];
  const shape: Matrix = [flip * sx, 0, sy * Math.tan((lean * Math.PI) / 180), sy, 0, 0];
  const all = times(turn, shape);
  const corners = [
    [5, 5],
    [25, 5],
    [25, 25],
    [5, 25],
  ].map(([x = 0, y = 0]) =>
    back(all, left + x, top + y)
      .map((value) => value.toFixed(9))
      .join(),
  );
  const groups = `<g transform="translate(${left} ${top}) rotate(${angle})"><g transform="matrix(${shape.join(' ')})">`;
  const markup = `${groups}<polygon fill="#b5432e" points="${corners.join(' ')}"/></g></g>`;
  // Mirrored along its own x, an outline's courses point the other way: the smaller turn is meant.
  const against = angle > 0 ? angle - 180 : angle + 180;
  return {
    markup,
    turned: flip === 1 ? angle : Math.abs(against) < Math.abs(angle) ? against : angle,
  };
}

interface Shown {
  readonly width: number;
  readonly height: number;
  readonly data: Buffer;
}

// The middle 13 mm of a cell, turned back, as the mean light of each row.
async function rowsOf(
  shown: Shown,
  [left, top]: readonly [number, number],
  turned: number,
): Promise<number[]> {
  const side = Math.round(20 * dotsPerMm);
  const raw = { width: shown.width, height: shown.height, channels: 3 } as const;
  const at = (mm: number): number => Math.round((mm + 5) * dotsPerMm);
  const area = { left: at(left), top: at(top), width: side, height: side };
  const cut = await sharp(shown.data, { raw }).extract(area).png().toBuffer();
  const level = await sharp(cut).rotate(-turned).png().toBuffer({ resolveWithObject: true });
  const inner = Math.round(13 * dotsPerMm);
  const from = Math.round((level.info.width - inner) / 2);
  const piece = sharp(level.data).extract({ left: from, top: from, width: inner, height: inner });
  const { data, info } = await piece.greyscale().raw().toBuffer({ resolveWithObject: true });
  return Array.from({ length: inner }, (_, row) => {
    let sum = 0;
    for (let i = 0; i < inner; i++) sum += data[(row * inner + i) * info.channels] ?? 0;
    return sum / inner;
  });
}

// How much of a wave of some period there is in rows.
function powerAt(rows: readonly number[], period: number): number {
  const mean = rows.reduce((a, b) => a + b, 0) / rows.length;
  let [re, im] = [0, 0];
  rows.forEach((value, i) => {
    const weight = (value - mean) * (1 - Math.cos((2 * Math.PI * (i + 0.5)) / rows.length));
    re += weight * Math.cos((2 * Math.PI * i) / period);
    im += weight * Math.sin((2 * Math.PI * i) / period);
  });
  return re * re + im * im;
}

// The period that rows hold most of, between 0.8 and 1.25 times what it should be. Joints are narrow
// and come in four waves; bricks, lighter or darker, in the first alone.
function periodOf(rows: readonly number[], wanted: number): number {
  let best = { period: 0, power: 0 };
  for (let period = 0.8 * wanted; period < 1.25 * wanted; period += wanted / 4000) {
    const power = [1, 2, 3, 4].reduce((sum, n) => sum + powerAt(rows, period / n), 0);
    if (power > best.power) best = { period, power };
  }
  return best.period;
}

async function dressPage(
  folder: string,
  random: () => number,
): Promise<readonly [Square[], number]> {
  const squares = Array.from({ length: across * down }, (_, i) => drawSquare(random, placeOf(i)));
  const pick = <Value>(values: readonly Value[]): Value =>
    values[Math.floor(random() * values.length)]!;
  const coursePx = 20 + 20 * random();
  const wall = drawWall({
    bond: pick(bonds),
    coursePx,
    width: 1000,
    height: 800,
    // Over few courses a wall's own unevenness would pass for ours.
    courseJitter: 0,
    seed: Math.floor(1e6 * random()),
  });
  writeFileSync(join(folder, 'wall.png'), await encodePhoto(wall.raster, { format: 'png' }));
  const size = `width="${across * cellMm}mm" height="${down * cellMm}mm" viewBox="0 0 ${across * cellMm} ${down * cellMm}"`;
  const inner = squares.map(({ markup }) => markup).join('\n');
  const path = join(folder, 'page.svg');
  writeFileSync(path, `<svg xmlns="http://www.w3.org/2000/svg" ${size}>${inner}</svg>`);
  const scale = findScale(pick(scales));
  const outcome = await dressDrawing(path, {
    output: join(folder, 'dressed.svg'),
    paint: [{ key: parsePaintKey('#b5432e', 'paint'), surface: join(folder, 'wall.png') }],
    course: findCourse('75mm'),
    scale,
  });
  if (!outcome.ok) throw new Error(outcome.message);
  return [squares, (75 / scale.ratio) * dotsPerMm];
}

function placeOf(i: number): readonly [number, number] {
  return [cellMm * (i % across), cellMm * Math.floor(i / across)];
}

/**
 * Cover squares in groups of groups, turned, stretched, leant and mirrored by chance, with walls drawn
 * to a known scale, and measure the course in what renderers of other hands show at 600 dpi.
 *
 * @param words - How many pages of eight squares, and the seed.
 */
export async function benchDress(words: readonly string[]): Promise<void> {
  const [pages = 5, seed = 8_100_000] = words.map(Number);
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-bench-'));
  const errors = new Map<string, number[]>();
  try {
    for (let page = 0; page < pages; page++) {
      const [squares, wanted] = await dressPage(folder, randomFrom(seed + 7919 * page));
      for (const { name, isThere, render } of renderers) {
        if (!isThere) continue;
        const size = [across * cellMm, down * cellMm] as const;
        const shown = await render(join(folder, 'dressed.svg'), 600, size);
        const { width, height } = shown;
        const raw = { width, height, channels: 4 as const };
        const data = await sharp(shown.data, { raw })
          .flatten({ background: '#ffffff' })
          .removeAlpha()
          .raw()
          .toBuffer();
        for (const [i, { turned }] of squares.entries()) {
          const rows = await rowsOf({ width, height, data }, placeOf(i), turned);
          const off = 100 * Math.abs(periodOf(rows, wanted) / wanted - 1);
          errors.set(name, [...(errors.get(name) ?? []), off]);
        }
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  for (const [name, all] of errors) {
    const sorted = all.toSorted((a, b) => a - b);
    const at = (share: number): string =>
      (sorted[Math.floor(share * (sorted.length - 1))] ?? NaN).toFixed(3);
    const bad = sorted.filter((off) => off > 1).length;
    console.log(
      `${name}: ${sorted.length} outlines, course off by ${at(0.5)} % in the median, ${at(0.95)} % at the 95th of 100, ${at(1)} % at most; ${bad} by over 1 %`,
    );
  }
}
