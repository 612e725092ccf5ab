import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  createRaster,
  cropRaster,
  fillPhoto,
  findCourse,
  findScale,
  inspectPhoto,
  inspectSeams,
  measurePhoto,
  mendPhoto,
  parsePrintSize,
  type Point,
  px,
  readPhoto,
  readSidecar,
  realMm,
  type Warning,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { heedPeriods } from '../../../packages/core/src/job/inspect/heed-periods.js';
import { unknownSeam } from '../../../packages/core/src/seam/inspect/inspect-axis.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-small-'));
const at = (name: string): string => join(folder, name);
const codes = ({ warnings }: { readonly warnings: readonly Warning[] }): readonly string[] =>
  warnings.map(({ code }) => code);

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// Courses of 40 px, cut from a tile to so many of them: side by side they meet, and one above the other by chance.
const cuts = [1.2, 1.35, 1.6] as const;
beforeAll(async () => {
  const size = { coursePx: 40, width: 480, height: 420, falloff: 0, vignette: 0 };
  const { raster } = drawWall({ ...size, seed: 2 });
  writeFileSync(at('wall.png'), await encodePhoto(raster, { format: 'png' }));
  const made = await mendPhoto(at('wall.png'), {
    output: at('tile.png'),
    course: findCourse('uk-metric'),
  });
  if (!made.ok) throw new Error(made.message);
  const tile = (await readPhoto(at('tile.png'))).raster;
  for (const held of cuts) {
    const cut = { x: 0, y: 0, width: tile.width, height: Math.round(40 * held) };
    const piece = cropRaster(tile, cut);
    expect(inspectSeams(piece)).toMatchObject({ x: { seamless: true }, y: { seamless: true } });
    writeFileSync(at(`${held}.png`), await encodePhoto(piece, { format: 'png' }));
  }
});

const seen = (x: number, y: number): Point => ({ x: px(x), y: px(y) });

// Two and a half bricks of 225 mm (BS EN 771-1, with a joint of 10) over 300 px.
const known = {
  spans: [[seen(20, 20), seen(320, 20)]],
  lengths: [{ length: realMm(562.5) }],
} as const;

test.each(cuts)('a cut of %d courses is kept as no tile, and filling warns', async (held) => {
  const measured = await measurePhoto(at(`${held}.png`), { ...known, save: true });
  if (!measured.ok) throw new Error(measured.message);
  const kept = await readSidecar(await readPhoto(at(`${held}.png`)));
  expect(kept).not.toBeNull();
  expect(kept?.finished).toBeUndefined();
  const filled = await fillPhoto(at(`${held}.png`), {
    output: at('filled.png'),
    scale: findScale('OO'),
    size: parsePrintSize('40x20mm'),
  });
  if (!filled.ok) throw new Error(filled.message);
  expect(codes(filled).join()).toMatch(/too-small-to-tell|visible-seam/);
});

test.each(cuts)(
  'mending a cut of %d courses claims no more than inspecting what it made',
  async (held) => {
    const output = at('mended.png');
    const made = await mendPhoto(at(`${held}.png`), { output, straighten: 'none' });
    if (!made.ok) throw new Error(made.message);
    expect(codes(made)).not.toContain('already-seamless');
    const inspected = await inspectPhoto(output, { straighten: 'none' });
    if (!inspected.ok) throw new Error(inspected.message);
    expect(made.value.y.seamless).toBe(inspected.value.y.seamless);
    expect(codes(made).includes('too-small-to-tell')).toBe(
      codes(inspected).includes('too-small-to-tell'),
    );
  },
);

test('what is handed on as it is, though nobody can tell, is said to be', async () => {
  const made = await mendPhoto(at('1.2.png'), { output: at('same.png'), straighten: 'none' });
  expect(made).toMatchObject({ ok: true, value: { method: 'none', y: { seamless: false } } });
  const [told] = made.ok ? made.warnings.filter(({ code }) => code === 'too-small-to-tell') : [];
  expect(told?.message).toMatch(/one above the other.*the same to the byte$/);
});

test('a picture too small to tell one way is not said to show a seam that way', () => {
  const raster = createRaster(400, 20);
  // Two bricks of 300 px would be 600 wide; under 32 px nothing is told by.
  const joints = { axis: 'y', course: px(100), courseOffset: 0, brick: px(300) } as const;
  const lattice = { ...joints, bond: null, repeat: { x: px(300), y: px(200) } };
  const x = { ...unknownSeam, seamless: true };
  const seams = { x, y: unknownSeam, verdict: '', warnings: [] };
  expect(heedPeriods(seams, { raster, lattice }, 'both').verdict).toBe('is too small to tell');
});
