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
  '20 of the 160 sound pictures of PngSuite are read whole, in as many channels and bits as they are called by',
  async () => {
    expect(names).toHaveLength(20);
    for (const name of names) {
      const bytes = readFileSync(join(folder, name));
      const [, colourType = '', depth = ''] = /(\d)[gpac](\d\d)\.png$/.exec(name) ?? [];
      const format = identifyFormat(name, bytes);
      const header = readHeader(name, { format, bytes }, limits);
      expect(header, name).toMatchObject({ width: 32, height: 32 });
      const { stored } = await decodePixels(
        name,
        { bytes, header },
        { ...limits, longest: Infinity },
      );
      expect([stored.width, stored.height], name).toEqual([32, 32]);
      // PNG Specification, 11.2.1: types 4 and 6 have alpha, depths under 16 are read as 8; grey is read as colours.
      const channels = stored.samples.length / 32 ** 2;
      const isDeep = stored.samples instanceof Uint16Array;
      const hasAlpha = ['4', '6'].includes(colourType) || bytes.includes('tRNS', 0, 'latin1');
      expect([channels, isDeep], name).toEqual([hasAlpha ? 4 : 3, depth === '16']);
      // Those that our own rows are read of, every filter among them, are what the decoder gives.
      const plain = lookAtPng(bytes);
      expect(plain !== null, name).toBe(['2', '6'].includes(colourType));
      if (plain === null) continue;
      const rows: number[] = [];
      for await (const row of pngRows(bytes, plain)) rows.push(...row);
      // One colour that stands for nothing is alpha to the decoder.
      const kept = [...stored.samples].filter((_, i) => i % channels < plain.channels);
      expect(rows, name).toEqual(kept);
    }
  },
);
