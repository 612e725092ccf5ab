import { writeFileSync } from 'node:fs';
import os from 'node:os';
import { join } from 'node:path';
import { inspectPhoto, mendPhoto } from '@gaugerod/core';
import { drawTexture, encodePhoto } from '@gaugerod/fixtures';
import { expect, test, vi } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

// 250 MB and 30 bytes a pixel: of 24 million pixels 970 MB, where 865 were seen, of 96 million 3130, where 2993 were.
test('a photo that is larger than mending has memory for is refused by its header, and mended where one says so', async () => {
  const folder = tempFolder();
  const [path, output] = [join(folder, 'gravel.png'), join(folder, 'tile.png')];
  const { raster } = drawTexture({ texture: 'gravel', width: 240, height: 200, seed: 5 });
  writeFileSync(path, await encodePhoto(raster, { format: 'png' }));
  const spy = vi.spyOn(os, 'totalmem').mockReturnValue(251e6);
  try {
    await expect(mendPhoto(path, { output })).rejects.toMatchObject({
      code: 'too-large',
      limit: 'pixels',
      message: `${path} is 240 x 200 pixels: to work on all of it at once takes 0.2514 GB of memory, and there are 0.251: --most-pixels 48k tries it`,
      hint: 'make it smaller first: 33333 pixels fit',
    });
    await expect(inspectPhoto(path)).resolves.toMatchObject({ ok: true });
    await expect(mendPhoto(path, { output, mostPixels: 48_000 })).resolves.toMatchObject({
      ok: true,
    });
  } finally {
    spy.mockRestore();
  }
});
