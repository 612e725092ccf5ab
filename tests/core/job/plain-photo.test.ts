import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  fillPhoto,
  findScale,
  measurePhoto,
  parsePrintSize,
  readPhoto,
  readSidecar,
  realMm,
  type Sidecar,
  writeSidecar,
} from '@gaugerod/core';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import { afterAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-plain-'));
const output = join(folder, 'fill.png');
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// A span of 600 mm over 300 px, which says nothing of courses.
async function keep(name: string, raster: Parameters<typeof encodePhoto>[0]): Promise<string> {
  const path = join(folder, name);
  writeFileSync(path, await encodePhoto(raster, { format: 'png' }));
  const span = [
    { x: 20, y: 100 },
    { x: 320, y: 100 },
  ] as const;
  const measured = await measurePhoto(path, {
    ...{ spans: [span], lengths: [{ length: realMm(600) }] },
    save: true,
  });
  if (!measured.ok) throw new Error(measured.message);
  return path;
}

async function keptOf(path: string): Promise<Sidecar | null> {
  return readSidecar(await readPhoto(path));
}

async function fill(path: string): Promise<unknown> {
  const size = parsePrintSize('40x30mm');
  const filled = await fillPhoto(path, { scale: findScale('OO'), size, output });
  return { filled, page: readFileSync(output).toString('base64') };
}

test('measuring rust keeps that it shows no courses, and it is filled with as before', async () => {
  const { raster } = drawTexture({ texture: 'rust', width: 420, height: 340, seed: 12 });
  const path = await keep('rust.png', raster);
  const kept = await keptOf(path);
  expect(kept).toMatchObject({ plain: true, measurement: { lattice: null } });
  const known = await fill(path);
  if (kept === null) throw new Error('no surface file');
  const { measurement, licence, credit } = kept;
  await writeSidecar(await readPhoto(path), { measurement, licence, credit });
  expect((await keptOf(path))?.plain).toBeUndefined();
  expect(known).toEqual(await fill(path));
});

test('a wall that was measured by a span is not taken for plain', async () => {
  const wall = drawWall({ bond: 'stretcher', coursePx: 24, width: 420, height: 340, seed: 3 });
  const path = await keep('wall.png', wall.raster);
  expect((await keptOf(path))?.plain).toBeUndefined();
  const filled = await fillPhoto(path, {
    ...{ scale: findScale('OO'), size: parsePrintSize('40x30mm'), output },
  });
  expect(filled).toMatchObject({
    ok: true,
    value: { tile: { courses: expect.any(Number) as number } },
  });
});
