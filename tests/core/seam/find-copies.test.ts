import { cropRaster, findCopies, createRaster, type Raster, resampleRaster } from '@gaugerod/core';
import {
  decodePhoto,
  drawBoards,
  drawPlainTiles,
  drawRivetedPlate,
  drawSlates,
  drawTexture,
  drawWall,
  encodePhoto,
  sampleTextures,
  sampleWalls,
  seedRanges,
} from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

interface Laid {
  readonly x: number;
  readonly y: number;
  readonly mirrored?: boolean;
}

// Copies side by side and one above the other, every other one turned round where asked.
function lay(raster: Raster, { x: across, y: down, mirrored = false }: Laid): Raster {
  const { width, height } = raster;
  const out = createRaster(width * across, height * down);
  for (const [channel, plane] of raster.planes.entries()) {
    const to = out.planes[channel]!;
    for (let y = 0; y < out.height; y++) {
      for (let x = 0; x < out.width; x++) {
        const isTurned = mirrored && Math.floor(x / width) % 2 === 1;
        const from = isTurned ? width - 1 - (x % width) : x % width;
        to[y * out.width + x] = plane[(y % height) * width + from]!;
      }
    }
  }
  return out;
}

const shrink = (raster: Raster, factor: number): Raster =>
  resampleRaster(raster, {
    width: Math.round(raster.width * factor),
    height: Math.round(raster.height * factor),
  });

const throughJpeg = async (raster: Raster, quality: number): Promise<Raster> =>
  decodePhoto(await encodePhoto(raster, { quality }));

const flemish = (seed: number): Raster =>
  drawWall({ bond: 'flemish', coursePx: 24, width: 301, height: 253, seed }).raster;

test.each([60, 75, 95])('a wall laid two by two repeats, through JPEG of %i', async (quality) => {
  const { x, y } = findCopies(await throughJpeg(lay(flemish(7), { x: 2, y: 2 }), quality));
  expect(Math.abs((x.period ?? 0) - 301)).toBeLessThan(0.5);
  expect(Math.abs((y.period ?? 0) - 253)).toBeLessThan(0.5);
  expect([x.mirror, y.mirror]).toEqual([null, null]);
});

test('three copies in a row are told by the least that repeats, brought to another size or not', async () => {
  const laid = lay(flemish(8), { x: 3, y: 1 });
  expect(Math.abs((findCopies(laid).x.period ?? 0) - 301)).toBeLessThan(0.5);
  expect(findCopies(laid).y.period).toBeNull();
  const smaller = await throughJpeg(shrink(laid, 0.73), 80);
  expect(Math.abs((findCopies(smaller).x.period ?? 0) - 0.73 * 301)).toBeLessThan(0.5);
});

test('halves laid in a mirror are told by where it stands', async () => {
  const laid = await throughJpeg(lay(flemish(9), { x: 2, y: 1, mirrored: true }), 70);
  const { x, y } = findCopies(laid);
  expect(Math.abs((x.mirror ?? 0) - 301)).toBeLessThan(1);
  expect([x.period, y.period, y.mirror]).toEqual([null, null, null]);
});

test('a picture of copies that was cut anyhow still repeats after as much', () => {
  const laid = lay(drawTexture({ texture: 'rust', width: 220, height: 200, seed: 3 }).raster, {
    x: 3,
    y: 3,
  });
  const { x, y } = findCopies(cropRaster(laid, { x: 37, y: 51, width: 507, height: 420 }));
  expect([x.period, y.period].map((period) => Math.round(period ?? 0))).toEqual([220, 200]);
});

test('regular work is no copy of itself: walls of every bond, roofs, boards, plates, textures', async () => {
  const pictures: Raster[] = [];
  for (const sample of [
    ...sampleWalls(seedRanges.test, 22),
    ...sampleTextures(seedRanges.test, 8),
  ]) {
    pictures.push((await sample.draw()).raster);
  }
  const size = { width: 480, height: 360, seed: 5 };
  for (const draw of [drawSlates, drawBoards, drawPlainTiles, drawRivetedPlate]) {
    pictures.push(draw(size).raster);
  }
  const none = { period: null, mirror: null };
  for (const picture of pictures) expect(findCopies(picture)).toEqual({ x: none, y: none });
});

test('a picture of one colour, or too small to tell, holds no copies', () => {
  const none = { x: { period: null, mirror: null }, y: { period: null, mirror: null } };
  expect(findCopies(createRaster(200, 100))).toEqual(none);
  for (const [width, height] of [
    [1, 1],
    [3, 200],
    [20, 17],
  ] as const) {
    expect(findCopies(drawTexture({ texture: 'rust', width, height, seed: 1 }).raster)).toEqual(
      none,
    );
  }
});
