import { randomBytes } from 'node:crypto';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { dpi, type RowSource } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { compressRows } from '../../../packages/core/src/write/png/compress-rows.js';

test('what rows were compressed to is let go of once they do not come again', async () => {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const [width, height, again] = [2000, 4200, 40];
  const noise = randomBytes(3 * width * (height - again));
  const source: RowSource = {
    width,
    height,
    dpi: dpi(600),
    again: { rows: [{ at: height - again, from: 0, length: again }], columns: [] },
    *rows() {
      for (let y = 0; y < height; y++) {
        const from = 3 * width * (y % (height - again));
        yield noise.subarray(from, from + 3 * width);
      }
    },
  };
  let [bytes, most] = [0, 0];
  collect();
  const before = process.memoryUsage().arrayBuffers;
  for await (const chunk of compressRows(source)) {
    bytes += chunk.length;
    if (bytes < 20e6) continue;
    collect();
    most = Math.max(most, process.memoryUsage().arrayBuffers - before);
  }
  // Noise cannot be compressed: 25 MB of it were written, in blocks of 1 MB.
  expect(bytes).toBeGreaterThan(25e6);
  // Held were those under way, a few, and not all.
  expect(most).toBeLessThan(bytes);
});
