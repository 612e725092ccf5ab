import sharp from 'sharp';
import { expect, test } from 'vitest';
import { layPicture } from '../../../packages/core/src/write/page/lay-picture.js';
import { lookAtPng, pngRows } from '../../../packages/core/src/write/png/png-rows.js';

// Columns of 8 pixels, black and white in turn, at 50 dots to the inch: a pixel is 0.508 mm, 12 dots at 600.
const [width, height, perPx] = [64, 32, 25.4 / 50];
const stripes = Buffer.from(
  Array.from({ length: 3 * width * height }, (_, i) => (Math.floor(i / 3) % 16 < 8 ? 0 : 255)),
);
const dotsPerMm = 600 / 25.4;

async function laid(
  more: { readonly turned?: boolean; readonly mirrored?: boolean },
  cut: number,
): Promise<(x: number, y: number) => number> {
  const raw = { width, height, channels: 3 as const };
  const bytes = await sharp(stripes, { raw }).png().toBuffer();
  const picture = {
    bytes,
    shape: null,
    pixels: { width, height },
    size: { width: width * perPx, height: height * perPx },
    at: { x: 0, y: 0 },
  };
  // A piece that begins in the midst of a pixel, and lies on a whole dot.
  const piece = { x: cut * perPx, y: 0, width: (width - cut) * perPx, height: height * perPx };
  const { turned = false, mirrored = false } = more;
  const sides = turned ? [piece.height, piece.width] : [piece.width, piece.height];
  const box = { x: 10 / dotsPerMm, y: 20 / dotsPerMm, width: sides[0] ?? 0, height: sides[1] ?? 0 };
  const page = { width: 900, height: 900, bytes: new Uint8Array(3 * 900 * 900).fill(128) };
  const placed = { part: 0, box, piece, turned, mirrored, blank: false };
  await layPicture(placed, picture, { x: dotsPerMm, y: dotsPerMm })(page, 0);
  return (x, y) => page.bytes[3 * (y * 900 + x)] ?? -1;
}

// By hand: 3.5 of the first 8 pixels are cut away, so the first stripe ends 4.5 * 12 = 54 dots in, and each
// of the others is 96 long.
test.each([
  [{}, (along: number) => [10 + along, 100]],
  [{ mirrored: true }, (along: number) => [10 + 726 - 1 - along, 100]],
  [{ turned: true }, (along: number) => [100, 20 + along]],
  [{ turned: true, mirrored: true }, (along: number) => [100, 20 + 726 - 1 - along]],
] as const)(
  'edges of a coarse picture lie true though it is cut within a pixel: %j',
  async (lie, at) => {
    const seen = await laid(lie, 3.5);
    const shade = (along: number): number => {
      const [x = 0, y = 0] = at(along);
      return seen(x, y);
    };
    for (const edge of [54, 150, 246]) {
      // The light of an edge that lies there is even on its two sides.
      const [before, after] = [shade(edge - 14), shade(edge + 14)];
      expect(Math.abs(before - after)).toBe(255);
      const isRise = after > before;
      const crossing = Array.from({ length: 28 }, (_, i) => edge - 14 + i).findIndex(
        (dot) => shade(dot) >= 188 === isRise,
      );
      expect(Math.abs(crossing - 14)).toBeLessThanOrEqual(1);
    }
  },
);

// libpng's own filters, one kind for each.
test.each([3, 4] as const)(
  'rows of a PNG of %d channels are those that its decoder gives',
  async (channels) => {
    const noise = Buffer.from(
      Array.from(
        { length: channels * 70 * 50 },
        (_, i) => ((i * 2654435761) >>> 13) & (i % 3 ? 255 : 15),
      ),
    );
    for (const adaptiveFiltering of [false, true]) {
      const picture = sharp(noise, { raw: { width: 70, height: 50, channels } });
      const bytes = await picture.png({ adaptiveFiltering }).toBuffer();
      const png = lookAtPng(bytes);
      expect(png).toEqual({ width: 70, height: 50, channels });
      const rows: Buffer[] = [];
      if (png) for await (const row of pngRows(bytes, png)) rows.push(Buffer.from(row));
      expect(Buffer.concat(rows).equals(noise)).toBe(true);
    }
  },
);
