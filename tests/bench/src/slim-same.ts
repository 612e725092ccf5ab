import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { slimDrawing } from '@gaugerod/core';
import { drawWall, encodePhoto, renderers, type Rendered } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { compareColours } from '../../../packages/core/dist/colour/compare-colours.js';
import { take } from './fill-speed.js';

type Matrix = readonly [number, number, number, number, number, number];

interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly data: Buffer;
}

// One picture on the page: from its pixels to mm.
interface Laid {
  readonly matrix: Matrix;
  readonly cell: readonly [number, number];
}

interface Page {
  readonly text: string;
  readonly source: Pixels;
  readonly laid: readonly Laid[];
}

const cli = fileURLToPath(new URL('../../../packages/cli/bin/gaugerod.js', import.meta.url));
// Whole pixels of CSS: a browser fits a page to them, and would move the picture by a part of a dot.
const [across, down, cellMm] = [3, 2, (76 * 25.4) / 96];
const dotsPerMm = 600 / 25.4;
const kinds = ['copies, clipped', 'finer than the print', 'turned'] as const;
type Kind = (typeof kinds)[number];
const formats = ['jpeg', 'png'] as const;
type Format = (typeof formats)[number];

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

async function drawPage(kind: Kind, format: Format, random: () => number): Promise<Page> {
  const wall = drawWall({
    bond: 'flemish',
    coursePx: 40 + 40 * random(),
    width: 1400,
    height: 1100,
    seed: Math.floor(1e6 * random()),
  });
  const bytes = Buffer.from(await encodePhoto(wall.raster, { format }));
  const { data, info } = await sharp(bytes)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const uri = `data:image/${format};base64,${bytes.toString('base64')}`;
  const { width, height } = info;
  const laid: Laid[] = [];
  const marks: string[] = [];
  // Dots per inch of the pixels.
  const perMm = (kind === 'copies, clipped' ? 900 + 900 * random() : 1500 + 900 * random()) / 25.4;
  const count = { 'copies, clipped': across * down, 'finer than the print': 1, turned: 2 }[kind];
  for (let i = 0; i < count; i++) {
    const cell = [cellMm * (i % across), cellMm * Math.floor(i / across)] as const;
    const angle = kind === 'turned' ? (80 * random() - 40) * (Math.PI / 180) : 0;
    const [c, s] = [Math.cos(angle) / perMm, Math.sin(angle) / perMm];
    // Its middle on that of the cell, and a little off.
    const [x, y] = [cell[0] + cellMm / 2 + random(), cell[1] + cellMm / 2 + random()];
    const [mx, my] = [width / 2, height / 2];
    const matrix: Matrix = [c, s, -s, c, x - c * mx + s * my, y - s * mx - c * my];
    laid.push({ matrix, cell });
    const size = 12 + 4 * random();
    const [left, top] = [cell[0] + 1 + 2 * random(), cell[1] + 1 + 2 * random()];
    const shape =
      kind === 'copies, clipped'
        ? `<path d="M${left} ${top + size}V${top + size / 3}L${left + size / 2} ${top} ${left + size} ${top + size / 3}V${top + size}Z"/>`
        : `<rect x="${cell[0] + 1}" y="${cell[1] + 1}" width="${cellMm - 2}" height="${cellMm - 2}"/>`;
    marks.push(
      `<clipPath id="c${i}">${shape}</clipPath><g clip-path="url(#c${i})"><image width="${width}" height="${height}" transform="matrix(${matrix.join(' ')})" xlink:href="${uri}"/></g>`,
    );
  }
  const page = `width="${across * cellMm}mm" height="${down * cellMm}mm" viewBox="0 0 ${across * cellMm} ${down * cellMm}"`;
  const text = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${page}>${marks.join('\n')}</svg>`;
  return { text, source: { ...info, data }, laid };
}

const fineness = 8;

// The mean of a dot's area, by 64 points of it.
function averageAt(
  { data, width, height }: Pixels,
  laid: Laid,
  [px, py]: readonly [number, number],
): number[] {
  const [a, b, c, d, e, f] = laid.matrix;
  const area = a * d - b * c;
  const sum = [0, 0, 0];
  for (let j = 0; j < fineness; j++) {
    for (let i = 0; i < fineness; i++) {
      const x = (px + (i + 0.5) / fineness) / dotsPerMm - e;
      const y = (py + (j + 0.5) / fineness) / dotsPerMm - f;
      const u = Math.min(width - 1, Math.max(0, Math.floor((d * x - c * y) / area)));
      const v = Math.min(height - 1, Math.max(0, Math.floor((a * y - b * x) / area)));
      const at = 3 * (v * width + u);
      for (let k = 0; k < 3; k++) sum[k]! += data[at + k]!;
    }
  }
  return sum.map((all) => Math.round(all / fineness ** 2));
}

interface Compared {
  readonly oldNew: number;
  readonly oldExact: number;
  readonly newExact: number;
  readonly edges: number;
}

// How many dots differ in opacity by over an eighth: a clip's edge is smoothed by a few samples where a
// picture's own is smoothed exactly.
function edgesOf(before: Rendered, after: Rendered): number {
  let edges = 0;
  for (let at = 3; at < before.data.length; at += 4) {
    if (Math.abs((before.data[at] ?? 0) - (after.data[at] ?? 0)) > 32) edges++;
  }
  return edges;
}

const around = [
  [0, 0],
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
] as const;

function solidIn(before: Rendered, after: Rendered): (x: number, y: number) => boolean {
  return (x, y) =>
    [before, after].every(({ data, width }) => data[4 * (y * width + x) + 3] === 255);
}

// What lies a dot or more inside.
function compare(page: Page, before: Rendered, after: Rendered): Compared {
  const [old, now, exact]: [number[], number[], number[]] = [[], [], []];
  const { width, height } = before;
  const solid = solidIn(before, after);
  for (const laid of page.laid) {
    const [left, top] = laid.cell.map((mm) => Math.ceil(mm * dotsPerMm) + 1);
    const side = Math.floor(cellMm * dotsPerMm) - 2;
    // Every other dot each way tells as much.
    for (let y = top ?? 0; y < Math.min(height - 1, (top ?? 0) + side); y += 2) {
      for (let x = left ?? 0; x < Math.min(width - 1, (left ?? 0) + side); x += 2) {
        if (!around.every(([i, j]) => solid(x + i, y + j))) continue;
        const i = 4 * (y * width + x);
        old.push(...before.data.subarray(i, i + 3));
        now.push(...after.data.subarray(i, i + 3));
        exact.push(...averageAt(page.source, laid, [x, y]));
      }
    }
  }
  const off = (a: readonly number[], b: readonly number[]): number =>
    compareColours(Uint8Array.from(a), Uint8Array.from(b), { channels: 3 }).mean;
  return {
    oldNew: off(old, now),
    oldExact: off(old, exact),
    newExact: off(now, exact),
    edges: edgesOf(before, after),
  };
}

// Of two in the middle their mean.
function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const [low, high] = [(sorted.length - 1) >> 1, sorted.length >> 1];
  return ((sorted[low] ?? NaN) + (sorted[high] ?? NaN)) / 2;
}

function tell(values: readonly number[]): string {
  return `${median(values).toFixed(2)} (at most ${Math.max(...values).toFixed(2)})`;
}

/**
 * Slim drawings of copies that are clipped, of pictures finer than the print, and of turned ones, and
 * hold what renderers of other hands show at 600 dpi of the new against the old, and each of them
 * against the average of the old picture over each dot; then a drawing of 50 MB, as a process.
 *
 * @param words - How many drawings of each kind, and the seed.
 */
export async function benchSlim(words: readonly string[]): Promise<void> {
  const [count = 3, seed = 8_200_000] = words.map(Number);
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-bench-'));
  try {
    for (const kind of kinds) {
      for (const format of formats) await benchKind(kind, format, { folder, count, seed });
    }
    await benchLarge(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function tried(shown: Promise<Rendered>): Promise<Rendered | null> {
  return shown.catch(() => null);
}

async function benchKind(
  kind: Kind,
  format: Format,
  { folder, count, seed }: { folder: string; count: number; seed: number },
): Promise<void> {
  const shares: number[] = [];
  const compared = new Map<string, Compared[]>();
  for (let i = 0; i < count; i++) {
    const page = await drawPage(
      kind,
      format,
      randomFrom(seed + 7919 * i + 104_729 * kinds.indexOf(kind)),
    );
    const [path, output] = [join(folder, 'old.svg'), join(folder, 'new.svg')];
    writeFileSync(path, page.text);
    const outcome = await slimDrawing(path, { output });
    if (!outcome.ok) throw new Error('a drawing that could not be slimmed');
    shares.push((100 * outcome.value.bytesAfter) / outcome.value.bytesBefore);
    for (const { name, render } of renderers.filter(({ isThere }) => isThere)) {
      const size = [across * cellMm, down * cellMm] as const;
      // Some refuse what others show: rsvg-convert a picture of more than 10 MB within the drawing.
      const shown = [await tried(render(path, 600, size)), await tried(render(output, 600, size))];
      const [before = null, after = null] = shown;
      if (before === null || after === null) continue;
      compared.set(name, [...(compared.get(name) ?? []), compare(page, before, after)]);
    }
  }
  console.log(`${kind}, ${format}: ${count} drawings, left ${tell(shares)} % of their bytes`);
  for (const [name, all] of compared) {
    const of = (key: keyof Compared): string => tell(all.map((one) => one[key]));
    const edges = Math.max(...all.map((one) => one.edges));
    console.log(
      `  ${name}: mean difference of new from old ${of('oldNew')}; from the average by area old ${of('oldExact')}, new ${of('newExact')}; dots of another opacity ${edges} at most`,
    );
  }
}

async function benchLarge(folder: string): Promise<void> {
  const wall = drawWall({ bond: 'english', coursePx: 70, width: 2000, height: 1500, seed: 8 });
  const small = await encodePhoto(wall.raster, { format: 'png' });
  const noise = await sharp({
    create: {
      width: 4000,
      height: 3000,
      channels: 3,
      background: '#808080',
      noise: { type: 'gaussian', mean: 128, sigma: 18 },
    },
  })
    .png()
    .toBuffer();
  const jpeg = await sharp(small)
    .resize(4000, 3000)
    .composite([{ input: noise, blend: 'soft-light' }])
    .jpeg({ quality: 97 })
    .toBuffer();
  const uri = `data:image/jpeg;base64,${jpeg.toString('base64')}`;
  const copies = Math.max(2, Math.round(50e6 / uri.length));
  const marks = Array.from(
    { length: copies },
    (_, i) =>
      `<clipPath id="c${i}"><rect x="${5 + 30 * i}" y="5" width="20" height="15"/></clipPath><g clip-path="url(#c${i})"><image x="${30 * i}" width="60" height="45" xlink:href="${uri}"/></g>`,
  );
  const path = join(folder, 'large.svg');
  const page = 'width="290mm" height="60mm" viewBox="0 0 290 60"';
  writeFileSync(
    path,
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${page}>${marks.join('')}</svg>`,
  );
  const output = join(folder, 'small.svg');
  const rounds = Array.from({ length: 3 }, () =>
    take([cli, 'slim', path, '-o', output, '--no-config']),
  );
  const [before, after] = [path, output].map((file) => statSync(file).size);
  console.log(
    `${((before ?? 0) / 1e6).toFixed(1)} MB of ${copies} copies: ${(median(rounds.map(({ wall: ms }) => ms)) / 1000).toFixed(2)} s, of the processor ${(median(rounds.map(({ processor }) => processor)) / 1000).toFixed(2)} s, ${median(rounds.map(({ peak }) => peak)).toFixed(0)} MiB; left ${((100 * (after ?? 0)) / (before ?? 1)).toFixed(1)} %`,
  );
}
