import { drawStrip, measureStrip, type Raster, type StripRefusal } from '@gaugerod/core';
import { decodePhoto, drawPrinter, drawWall, encodePhoto, takePrint } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { plainBrick } from '../../../support/plain-brick.js';
import { turnQuarter } from '../../../support/turn-quarter.js';

const strip = drawStrip();
const printer = drawPrinter(5);

function take(options: Partial<Parameters<typeof takePrint>[2]> = {}): Raster {
  return takePrint(strip, printer, { by: 'camera', seed: 3, width: 900, ...options });
}

const photo = take();

function change(raster: Raster, by: (light: number, x: number, y: number) => number): Raster {
  const { width, height } = raster;
  const planes = raster.planes.map((plane) =>
    plane.map((light, i) => by(light, (i % width) / width, Math.floor(i / width) / height)),
  );
  const [red, green, blue] = planes as [Float32Array, Float32Array, Float32Array];
  return { width, height, planes: [red, green, blue] };
}

function read(raster: Raster): { seen: Float64Array; turns: number; mirrored: boolean } {
  const found = measureStrip(raster);
  if (!found.ok) throw new Error(found.message);
  return { seen: found.value.seen, ...found.value.place };
}

function refusal(raster: Raster): StripRefusal {
  const found = measureStrip(raster);
  if (found.ok) throw new Error('read');
  expect(found.message).toMatch(/^[a-z][^\n]*[^.]$/);
  return found.code;
}

test('patches are the same however a strip lies: upright, on its side, upside down, in a mirror', () => {
  const upright = read(photo);
  expect([upright.turns, upright.mirrored]).toEqual([0, false]);
  let turned = photo;
  for (const turns of [1, 2, 3]) {
    turned = turnQuarter(turned, 'right');
    const found = read(turned);
    expect([found.turns, found.mirrored]).toEqual([turns, false]);
    found.seen.forEach((value, i) => {
      expect(Math.abs(value - upright.seen[i]!)).toBeLessThan(1);
    });
  }
  const mirror = read(turnQuarter(photo, 'mirror'));
  expect([mirror.turns, mirror.mirrored]).toEqual([0, true]);
  mirror.seen.forEach((value, i) => {
    expect(Math.abs(value - upright.seen[i]!)).toBeLessThan(1);
  });
});

test('warm light that falls off to one side tells the same colours as a scanner', () => {
  const scanned = read(take({ by: 'scanner' })).seen;
  const lit = read(photo).seen;
  const off = Array.from(scanned, (value, i) => Math.abs(value - lit[i]!));
  expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThan(0.7);
});

test.each<readonly [string, StripRefusal, () => Raster]>([
  ['a wall', 'no-strip', () => drawWall(plainBrick).raster],
  [
    'a strip of which a corner is cut off',
    'no-strip',
    () => change(photo, (light, x, y) => (x > 0.7 && y > 0.7 ? 0.1 : light)),
  ],
  ['a blank', 'no-strip', () => change(photo, () => 0.8)],
  ['a strip from afar', 'strip-too-small', () => take({ width: 240 })],
  ['a strip in the dark', 'bad-exposure', () => change(photo, (light) => 0.05 * light)],
  [
    'a strip in glaring light',
    'bad-exposure',
    () => change(photo, (light) => Math.min(1, 2.5 * light)),
  ],
  [
    'a strip with the edge of a shadow on it',
    'strip-uneven',
    () => change(photo, (light, x, y) => (x + y > 1 ? 0.6 * light : light)),
  ],
  [
    'a strip under a lamp at one end',
    'strip-uneven',
    () => change(photo, (light, x) => light * (1 - 0.88 * x)),
  ],
])('%s is refused: %s', (_, code, make) => {
  expect(refusal(make())).toBe(code);
});

test('a strip that was printed in black alone is refused', () => {
  const grey = change(photo, (light) => light);
  const [red, green, blue] = grey.planes;
  red.forEach((light, i) => {
    const mean = (light + green[i]! + blue[i]!) / 3;
    red[i] = mean;
    green[i] = mean;
    blue[i] = mean;
  });
  expect(refusal(grey)).toBe('strip-unlike');
});

test('a strip that was scanned in grey is to be scanned in colour', () => {
  const [red, green, blue] = photo.planes;
  // ITU-R BT.709: the share of light of each primary.
  const light = red.map((value, i) => 0.2126 * value + 0.7152 * green[i]! + 0.0722 * blue[i]!);
  const told = measureStrip({ ...photo, planes: [light, light, light] });
  expect(told).toMatchObject({ ok: false, code: 'strip-unlike' });
  expect(told.ok ? '' : told.hint).toContain('scan it in colour');
});

test('a strip of another number is refused by its number', () => {
  // Cells of the code, 4 mm wide and 8 mm apart about the middle of 185.5 mm, their middles 5 mm down: strip 2 has the
  // fifth black where strip 1 has the sixth.
  const other = change(strip, (light) => light);
  const fill = (cell: number, light: number): void => {
    const left = Math.round(10 * (185.5 / 2 + (cell - 4) * 8 + 2));
    for (const plane of other.planes) {
      for (let y = 30; y < 70; y++)
        plane.fill(light, y * other.width + left, y * other.width + left + 40);
    }
  };
  fill(5, 1);
  fill(4, 0);
  const found = measureStrip(takePrint(other, printer, { by: 'scanner', seed: 1, width: 900 }));
  expect(found).toMatchObject({ ok: false, code: 'other-strip' });
  expect(found.ok ? '' : found.message).toContain('strip 2');
});

test('a JPEG as cameras save them tells the same colours', async () => {
  const stored = await decodePhoto(await encodePhoto(photo, { quality: 85 }));
  const [plain, saved] = [read(photo).seen, read(stored).seen];
  const off = Array.from(plain, (value, i) => Math.abs(value - saved[i]!));
  expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThan(0.5);
});

test('each patch of the strip lies apart from every other, from the marks and from the code', () => {
  // Whatever is not white, as runs along each row of dots: nothing touches the edge, and the marks are where the corners are.
  const [red] = strip.planes;
  const dark = (x: number, y: number): boolean => red[y * strip.width + x]! < 0.5;
  expect([dark(5, 5), dark(strip.width - 6, 5)]).toEqual([true, true]);
  expect([dark(5, strip.height - 6), dark(strip.width - 6, strip.height - 6)]).toEqual([
    true,
    true,
  ]);
  // 1.25 mm beside the first patch, which begins 14 mm in, it is white on all sides.
  for (const [x, y] of [
    [127, 160],
    [160, 127],
    [227, 160],
    [160, 227],
  ] as const) {
    expect(dark(x, y)).toBe(false);
  }
});

test('no curve is made up for a scanner or a camera that has none', () => {
  for (const by of ['scanner', 'camera'] as const) {
    const found = measureStrip(take({ by }));
    expect(found).toMatchObject({ ok: true, value: { curve: { isTold: false, much: 0 } } });
    expect(found.ok && found.value.isAslant).toBe(by === 'camera');
  }
});
