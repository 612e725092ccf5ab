import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  createRaster,
  fillPhoto,
  findSection,
  makeRelief,
  measurePhoto,
  printMm,
} from '@gaugerod/core';
import { encodePhoto, renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawStrip, mm, oneTo, type ReadStrip } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-relief-'));
const photo = join(folder, 'rust.png');

// Blotches of rust of several sizes, from sines that repeat with the picture.
function drawRust(side: number): ReturnType<typeof createRaster> {
  const raster = createRaster(side, side);
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const [u, v] = [(2 * Math.PI * x) / side, (2 * Math.PI * y) / side];
      const blotch =
        Math.sin(5 * u + 2 * v) + Math.sin(13 * v - 7 * u) + 0.8 * Math.sin(41 * u + 29 * v);
      const light = 0.14 * (1 + 0.2 * blotch);
      [1.6, 0.8, 0.5].forEach((share, i) => {
        const plane = raster.planes[i];
        if (plane) plane[y * side + x] = light * share;
      });
    }
  }
  return raster;
}

beforeAll(async () => {
  writeFileSync(photo, await encodePhoto(drawRust(200), { format: 'png' }));
  // 100 px are 1 m.
  const measured = await measurePhoto(photo, {
    ...{
      spans: [
        [
          { x: 50, y: 100 },
          { x: 150, y: 100 },
        ],
      ],
      lengths: [{ length: mm(1000) }],
    },
    save: true,
  });
  if (!measured.ok) throw new Error(measured.message);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const girder = {
  ...{ section: findSection('UB 533x210x92'), scale: oneTo(148), length: mm(5920) },
} as const;

const bridge = {
  ...{ profile: 'plate-girder' as const, depth: mm(1200), flange: mm(40), leg: mm(100) },
  ...{ web: mm(12), width: mm(350), stiffeners: mm(1200), rivets: mm(101.6) },
  ...{ length: mm(5920), scale: oneTo(148), splices: [mm(2700)] },
  covers: [mm(4000)],
} as const;

function correlate(one: readonly number[], other: readonly number[]): number {
  const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;
  const [m, n] = [mean(one), mean(other)];
  const products = one.map((value, i) => [value - m, (other[i] ?? 0) - n] as const);
  const sum = (of: (pair: readonly [number, number]) => number): number =>
    products.reduce((total, pair) => total + of(pair), 0);
  return sum(([a, b]) => a * b) / Math.sqrt(sum(([a]) => a * a) * sum(([, b]) => b * b));
}

let kept: ReadStrip | undefined;
const flatStrip = async (): Promise<ReadStrip> =>
  (kept ??= await drawStrip({ ...girder, strength: 0 }, photo));

test('rust stays visible along web and flanges: it correlates with what lay there before', async () => {
  const flat = await flatStrip();
  const lit = await drawStrip(girder, photo);
  expect([lit.width, lit.height]).toEqual([flat.width, flat.height]);
  expect(lit.data.equals(flat.data)).toBe(false);
  for (let y = 0; y < lit.height; y++) {
    const row = (strip: typeof lit): number[] =>
      Array.from({ length: strip.width }, (_, x) => strip.data[3 * (y * strip.width + x)] ?? 0);
    expect(correlate(row(flat), row(lit))).toBeGreaterThan(0.8);
  }
});

test('without strength it is what fill lays there', async () => {
  const flat = await flatStrip();
  const output = join(folder, 'filled.png');
  const filled = await fillPhoto(photo, {
    output,
    scale: girder.scale,
    size: { width: printMm(5920 / 148), height: printMm(533.1 / 148) },
  });
  expect(filled.ok).toBe(true);
  const { data } = await sharp(output).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  expect(data.equals(flat.data)).toBe(true);
});

test('pieces under one another show different rust', async () => {
  const { data, width } = await drawStrip({ ...girder, copies: 2 }, photo);
  // 85 dots a piece, 24 between.
  const piece = 3 * 85 * width;
  const next = 3 * 109 * width;
  expect(data.subarray(0, piece).equals(data.subarray(next, next + piece))).toBe(false);
});

test.each(['.tif', '.webp', '.jpg'])('%s holds the same picture at its true size', async (kind) => {
  const png = await drawStrip(bridge);
  const other = await drawStrip(bridge, null, `strip${kind}`);
  const { density } = await sharp(other.path).metadata();
  if (kind !== '.webp') expect(Math.abs((density ?? 0) - 600)).toBeLessThan(0.01);
  const worst = png.data.reduce((most, value, i) => {
    return Math.max(most, Math.abs(value - (other.data[i] ?? 0)));
  }, 0);
  expect(worst).toBeLessThanOrEqual(kind === '.jpg' ? 40 : 0);
});

test.each(renderers.filter(({ isThere }) => isThere))(
  '$name shows a drawing as the picture is',
  async ({ render, name }) => {
    // Of whole dots both ways: a picture lies in the middle of its dots, a drawing begins with one. The
    // flanges and what covers them are 80 mm.
    const dots = (count: number): number => (count * 148 * 25.4) / 600;
    const piece = { ...bridge, depth: mm(dots(204) - 80), length: mm(dots(945)) };
    const { data, width, height } = await drawStrip(piece, photo);
    const drawn = await drawSvg(piece);
    // Live, where lines are blended by the renderer itself, and by what was blended before.
    const live = join(folder, `live-${name}.svg`);
    writeFileSync(
      live,
      readFileSync(drawn, 'utf8')
        .replace('#live{display:none;', '#live{')
        .replace('</style>', '#baked{display:none}</style>'),
    );
    for (const file of [drawn, live]) {
      const seen = await render(file, 600, [(945 * 25.4) / 600, (204 * 25.4) / 600]);
      let [far, sum] = [0, 0];
      for (let y = 0; y < height - 1; y++) {
        for (let x = 0; x < width - 1; x++) {
          const apart = Math.abs(
            (data[3 * (y * width + x)] ?? 0) - (seen.data[4 * (y * seen.width + x)] ?? 0),
          );
          sum += apart;
          if (apart > 12) far++;
        }
      }
      const pixels = (height - 1) * (width - 1);
      // Chromium puts a line's edge on other parts of a dot.
      expect(far / pixels).toBeLessThan(name === 'chromium' ? 0.06 : 0.001);
      expect(sum / pixels).toBeLessThan(3);
    }
  },
  60_000,
);

async function drawSvg(options: Parameters<typeof drawStrip>[0]): Promise<string> {
  const output = join(folder, 'bridge.svg');
  const made = await makeRelief(photo, { ...options, output });
  if (!made.ok) throw new Error(made.message);
  return output;
}

test('in a drawing every line can be taken hold of, and a page is exactly as large as its piece', async () => {
  const path = await drawSvg(bridge);
  const text = readFileSync(path, 'utf8');
  expect(text).toContain('width="40mm" height="8.648649mm" viewBox="0 0 40 8.648649"');
  expect(text).toContain('mix-blend-mode:overlay');
  const lines = text.slice(text.indexOf('<g id="lines">'));
  // Rows of rivets along both angles: (40 - 0.2) / 0.686 mm of paper, and columns on the splice.
  expect(lines.match(/<circle /g)?.length).toBeGreaterThan(90);
  expect(lines.match(/<rect /g)?.length).toBeGreaterThan(20);
  expect(text.match(/<image /g)).toHaveLength(2);
  const pdf = join(folder, 'bridge.pdf');
  const made = await makeRelief(null, { ...bridge, output: pdf });
  expect(made.ok).toBe(true);
  // 40 mm and 1280 / 148 mm, its two plates included, in points of 1/72 in: 113.386 and 24.516.
  expect(readFileSync(pdf, 'latin1')).toMatch(/MediaBox \[0 0 113\.38\d* 24\.51\d*\]/);
});
