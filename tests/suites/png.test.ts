import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { decodePixels } from '../../packages/core/src/read/decode-pixels.js';
import { identifyFormat } from '../../packages/core/src/read/identify-format.js';
import { readHeader } from '../../packages/core/src/read/read-header.js';
import { lookAtPng, pngRows } from '../../packages/core/src/write/png/png-rows.js';

// PngSuite, by W. van Schaik: its names tell colour type and depth, and each is 32 x 32 where they tell no size. A package
// holds 20 of them, which `.ci/fetch` fetches.
const folder = fileURLToPath(
  new URL('../../out/fetched/node-png@0.4.3/examples/test/img', import.meta.url),
);
const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.png')) : [];
const limits = { pixels: 1e6, side: 1e5, seconds: 10 };

test.skipIf(names.length === 0)(
  `all ${names.length} pictures of PngSuite that there are say what they are called, and are read whole`,
  async () => {
    expect(names).toHaveLength(20);
    for (const name of names) {
      const bytes = readFileSync(join(folder, name));
      const [, colourType = '', depth = ''] = /(\d)[gpac](\d\d)\.png$/.exec(name) ?? [];
      expect([bytes[25], bytes[24]], name).toEqual([Number(colourType), Number(depth)]);
      const format = identifyFormat(name, bytes);
      const header = readHeader(name, { format, bytes }, limits);
      expect(header, name).toMatchObject({ width: 32, height: 32 });
      const { stored } = await decodePixels(
        name,
        { bytes, header },
        { ...limits, longest: Infinity },
      );
      expect([stored.width, stored.height], name).toEqual([32, 32]);
      // Those that our own rows are read of, every filter among them, are what the decoder gives.
      const plain = lookAtPng(bytes);
      expect(plain !== null, name).toBe(['2', '6'].includes(colourType));
      if (plain === null) continue;
      const rows: number[] = [];
      for await (const row of pngRows(bytes, plain)) rows.push(...row);
      const channels = stored.samples.length / 32 ** 2;
      if (channels === plain.channels) expect(rows, name).toEqual([...stored.samples]);
    }
  },
);
