import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  findScale,
  inspectPhoto,
  parsePrintSize,
  realMm,
  type Raster,
  type WeatheredPhoto,
  weatherPhoto,
  type WeatherPhotoOptions,
} from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-weather-'));
const photo = join(folder, 'wall.png');
const tile = join(folder, 'tile.png');
const output = join(folder, 'out.png');
// UK metric courses of 75 mm on 25 px: 3 mm a pixel. 12 courses of 4 bricks of 225 mm come round.
const wall = drawWall({ bond: 'stretcher', coursePx: 25, width: 420, height: 330, seed: 31 });
const course = findCourse('uk-metric');
const asked = { course, scale: findScale('N-UK'), size: parsePrintSize('12x9mm') };

beforeAll(async () => {
  writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function fill(more: Partial<FillPhotoOptions> = {}): Promise<Buffer> {
  const filled = await fillPhoto(photo, { ...asked, output, ...more });
  if (!filled.ok) throw new Error(filled.message);
  return readFileSync(output);
}

async function weather(more: Partial<WeatherPhotoOptions> = {}): Promise<WeatheredPhoto> {
  const done = await weatherPhoto(photo, { course, output, ...more });
  if (!done.ok) throw new Error(done.message);
  return done.value;
}

test('a fill whose weather is nought is the same to the byte as one without', async () => {
  const plain = await fill();
  expect(await fill({ weather: { soot: 0, damp: 0 } })).toEqual(plain);
  const sooty = await fill({ weather: { soot: 0.5 } });
  expect(sooty).not.toEqual(plain);
  expect(await fill({ weather: { soot: 0.5 } })).toEqual(sooty);
});

async function columns(file: Buffer, from: number, to: number): Promise<Raster['planes']> {
  const { width, height, planes } = await decodePhoto(file);
  return planes.map((plane) =>
    Float32Array.from({ length: (to - from) * height }, (_, i) => {
      const y = Math.floor(i / (to - from));
      return plane[y * width + from + (i % (to - from))]!;
    }),
  ) as unknown as Raster['planes'];
}

test('the piece to the right goes on where the first ended', async () => {
  const options = {
    preset: 'derelict',
    foot: 9,
    ledges: [{ from: { x: 2, y: 3 }, to: { x: 9, y: 3 } }],
  } as const;
  const whole = await fill({ weather: options });
  // 5.08 mm at 600 dpi are 120 dots exactly.
  const right = await fill({
    weather: options,
    size: parsePrintSize('6.92x9mm'),
    datum: { x: 5.08, y: 0 },
  });
  const { width } = await decodePhoto(right);
  expect(await columns(right, 0, width)).toEqual(await columns(whole, 120, 120 + width));
});

test('an outline is weathered as the wall behind it is', async () => {
  const drawing = join(folder, 'part.svg');
  writeFileSync(
    drawing,
    '<svg xmlns="http://www.w3.org/2000/svg" width="12mm" height="9mm" viewBox="0 0 12 9"><path d="M0 0H12V9H0Z"/></svg>',
  );
  const options = { preset: 'grimy', foot: 9 } as const;
  const whole = await fill({ weather: options });
  const filled = await fillPhoto(photo, {
    course,
    scale: asked.scale,
    output,
    outline: { path: drawing },
    weather: options,
  });
  expect(filled.ok).toBe(true);
  // The last row and column of dots the outline only begins.
  const cut = await sharp(readFileSync(output))
    .extract({ left: 0, top: 0, width: 283, height: 212 })
    .removeAlpha()
    .raw()
    .toBuffer();
  const same = await sharp(whole)
    .extract({ left: 0, top: 0, width: 283, height: 212 })
    .raw()
    .toBuffer();
  expect(cut.equals(same)).toBe(true);
});

test('a pattern is drawn where all of the weather is nought: it gets as far as the photo', async () => {
  const options = { ...asked, output: 'a.svg', svg: 'pattern', weather: { soot: 0 } } as const;
  await expect(fillPhoto(join(folder, 'missing.png'), options)).rejects.toThrow(/missing\.png/);
});

test.each([
  [
    { weather: { preset: 'grimy' }, svg: 'pattern', output: 'a.svg' },
    /weather does not repeat, for svg/,
  ],
  [
    { weather: { ledges: [{ from: { x: 0, y: 0 }, to: { x: 9, y: 0 } }] } },
    /a preset or a strength of weather beside it for ledges/,
  ],
  [{ weather: { soot: 2 } }, /expected 0 to 1 for soot, got 2/],
  [{ weather: { soot: 1, seed: -1 } }, /a whole number from 0 to 4294967295 for seed/],
  [
    { weather: { soot: 1, ledges: [{ from: { x: 1, y: 0 }, to: { x: 1, y: 9 } }] } },
    /a line that is not upright for ledges/,
  ],
] as const)('what makes no sense is refused before anything is read: %j', async (more, message) => {
  const options = { ...asked, output, ...(more as Partial<FillPhotoOptions>) };
  await expect(fillPhoto(join(folder, 'missing.png'), options)).rejects.toThrow(message);
});

test('a photo is weathered at its own size, and where nothing is told, settled', async () => {
  const { width, height, weather: laid } = await weather();
  expect([width, height]).toEqual([420, 330]);
  expect(laid).toMatchObject({ soot: 0.2, streaks: 0.3, damp: 0.2, seed: 1 });
  const settled = readFileSync(output);
  await weather({ preset: 'settled' });
  expect(readFileSync(output)).toEqual(settled);
});

test('a datum farther off than that of a part may lie is refused before the photo is read', async () => {
  const options = { course, output, datum: { x: 0, y: -1_000_001 } };
  await expect(weatherPhoto(join(folder, 'missing.png'), options)).rejects.toThrow(
    /expected up to 1 km for datum, got "-1000001 mm"/,
  );
});

test('a photo whose weather is nought keeps its pixels', async () => {
  await weather({ soot: 0 });
  const raw = (file: string): Promise<Buffer> => sharp(file).raw().toBuffer();
  expect((await raw(output)).equals(await raw(photo))).toBe(true);
});

test('a tile that is weathered to repeat is still seamless', async () => {
  // What lies between two joints of the drawing repeats: four courses of 25 px, and two bricks of 75.
  const { raster } = drawWall({
    bond: 'stretcher',
    coursePx: 25,
    width: 600,
    height: 500,
    seed: 8,
  });
  writeFileSync(tile, await encodePhoto(raster, { format: 'png' }));
  const { mendPhoto } = await import('@gaugerod/core');
  const mended = join(folder, 'mended.png');
  const done = await mendPhoto(tile, { output: mended, course });
  if (!done.ok) throw new Error(done.message);
  for (const seed of [1, 2]) {
    const weathered = await weatherPhoto(mended, {
      course,
      output,
      soot: 0.6,
      grime: 0.6,
      salts: 0.5,
      rust: 0.5,
      patches: 0.5,
      repeat: 'both',
      seed,
    });
    if (!weathered.ok) throw new Error(weathered.message);
    const seen = await inspectPhoto(output);
    if (!seen.ok) throw new Error(seen.message);
    expect([seen.value.x.seamless, seen.value.y.seamless]).toEqual([true, true]);
  }
});

test('what needs a top and a foot is left out of a tile, and said', async () => {
  const done = await weatherPhoto(photo, { course, output, preset: 'derelict', repeat: 'both' });
  if (!done.ok) throw new Error(done.message);
  expect(done.value.weather).toMatchObject({ damp: 0, streaks: 0, moss: 0, soot: 0.45 });
  expect(done.warnings.map(({ code }) => code)).toContain('not-in-a-tile');
  await expect(weatherPhoto(photo, { course, output, damp: 0.5, repeat: 'y' })).rejects.toThrow(
    /0 where a picture repeats up and down for damp/,
  );
  await expect(
    weatherPhoto(photo, { course, output, soot: 0.5, repeat: 'x', datum: { x: 5, y: 0 } }),
  ).rejects.toThrow(/does not repeat for datum, got "5,0"/);
});

test.each([
  [{ preset: 'settled', fixings: [{ x: 5, y: 5 }] }, /rust above 0 beside it for fixings/],
  [{ soot: 0.5, foot: 12 }, /damp or moss above 0 beside it for foot/],
  [{ soot: 0.5, facing: 'north' }, /moss or fade above 0 beside it for facing/],
  [
    { rust: 0.5, ledges: [{ from: { x: 0, y: 0 }, to: { x: 9, y: 0 } }] },
    /soot or streaks or moss above 0 beside it for ledges/,
  ],
] as const)('what no weather would show is refused: %j', async (wish, words) => {
  await expect(fill({ weather: wish })).rejects.toThrow(words);
});

test('a piece of a wall whose ground nobody told of is said to stand on it', async () => {
  const warned = async (weather: FillPhotoOptions['weather']): Promise<readonly string[]> => {
    const options = { ...asked, output, datum: { x: 0, y: 9 } } as const;
    const filled = await fillPhoto(photo, { ...options, ...(weather && { weather }) });
    return filled.ok ? filled.warnings.map(({ code }) => code) : [];
  };
  expect(await warned({ damp: 0.5 })).toContain('foot-assumed');
  expect(await warned({ damp: 0.5, foot: 18 })).not.toContain('foot-assumed');
  expect(await warned({ soot: 0.5 })).not.toContain('foot-assumed');
});

test.each([
  [0.5, 'too-small'],
  [2e7, 'too-large'],
] as const)('no weather is laid on a wall of %d mm', async (mm, code) => {
  const ends = [
    { x: 0, y: 0 },
    { x: 420, y: 0 },
  ] as const;
  const length = { length: realMm(mm) };
  const done = await weatherPhoto(photo, { spans: [ends], lengths: [length], output, damp: 0.5 });
  expect(done).toMatchObject({ ok: false, code });
});
