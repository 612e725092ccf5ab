import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type RowSource, writePicture } from '@gaugerod/core';
import pixelmatch from 'pixelmatch';
import sharp from 'sharp';
import { expect } from 'vitest';

interface Bytes {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}

function toBytes({ width, height, rows }: RowSource): Bytes {
  const rgba = new Uint8Array(width * height * 4).fill(255);
  let at = 0;
  for (const row of rows()) {
    for (let i = 0; i < row.length; i += 3, at += 4) rgba.set(row.subarray(i, i + 3), at);
  }
  return { width, height, rgba };
}

async function readBytes(path: string): Promise<Bytes> {
  const { data, info } = await sharp(path)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, rgba: data };
}

// At most 0.1 % of all pixels, and at most 12 in any 16 x 16 window: a seam is a local fault that
// a total hides.
function compare(got: Bytes, expected: Bytes): { worst: string | null; picture: Uint8Array } {
  const { width, height } = got;
  const picture = new Uint8Array(width * height * 4);
  const options = { threshold: 0.1, includeAA: true };
  const total = pixelmatch(got.rgba, expected.rgba, picture, width, height, options);
  const local = pixelmatch(got.rgba, expected.rgba, null, width, height, {
    ...options,
    windowSize: 16,
  });
  if (total > width * height * 0.001) return { worst: `${total} pixels differ`, picture };
  if (local > 12) return { worst: `${local} pixels of a 16 x 16 window differ`, picture };
  return { worst: null, picture };
}

async function leave(folder: string, name: string, { width, height, rgba }: Bytes): Promise<void> {
  const raw = { width, height, channels: 4 } as const;
  await sharp(rgba, { raw }).png().toFile(join(folder, name));
}

expect.extend({
  async toMatchGolden(received: RowSource, name: string) {
    const golden = fileURLToPath(new URL(`../golden/${name}.png`, import.meta.url));
    if (process.env['UPDATE_GOLDEN'] !== undefined) {
      await mkdir(dirname(golden), { recursive: true });
      await writePicture(golden, received);
      return { pass: true, message: () => '' };
    }
    if (!existsSync(golden)) {
      return {
        pass: false,
        message: () => `there is no golden ${name}: look at UPDATE_GOLDEN=1 npm test`,
      };
    }
    const got = toBytes(received);
    const expected = await readBytes(golden);
    const { width, height } = expected;
    if (got.width !== width || got.height !== height) {
      const message = `${name} is ${got.width} x ${got.height} px, expected ${width} x ${height}`;
      return { pass: false, message: () => message };
    }
    const { worst, picture } = compare(got, expected);
    if (worst === null) return { pass: true, message: () => `${name} matches` };
    const folder = fileURLToPath(new URL('../../out/golden/', import.meta.url));
    await mkdir(folder, { recursive: true });
    await leave(folder, `${name}-got.png`, got);
    await leave(folder, `${name}-expected.png`, expected);
    await leave(folder, `${name}-difference.png`, { width, height, rgba: picture });
    return { pass: false, message: () => `${name}: ${worst}; see ${folder}` };
  },
});

declare module 'vitest' {
  // What `expect` gains; its type parameter must be named as vitest names it.
  interface Matchers<T> {
    /** Compare a picture with the one committed in `tests/golden`. */
    toMatchGolden: (name: string) => Promise<T>;
  }
}
