import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { mendPhoto, type MendedPhoto, type Warning } from '@gaugerod/core';
import { drawTexture, encodePhoto } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

// Gravel, so many times as light at its top as at its foot.
async function mend(
  times: number,
): Promise<{ readonly value: MendedPhoto; readonly warnings: readonly Warning[] }> {
  const folder = tempFolder();
  const { raster } = drawTexture({
    texture: 'gravel',
    width: 320,
    height: 320,
    seed: 8,
    falloff: 0,
    vignette: 0,
  });
  const { width, height, planes } = raster;
  for (const plane of planes) {
    for (let i = 0; i < plane.length; i++) {
      plane[i]! *= times ** -(Math.floor(i / width) / height);
    }
  }
  const photo = join(folder, 'gravel.png');
  writeFileSync(photo, await encodePhoto(raster, { format: 'png' }));
  const mended = await mendPhoto(photo, { output: join(folder, 'tile.png') });
  if (!mended.ok) throw new Error(mended.message);
  return mended;
}

// ISO 12232 and every exposure meter count in stops, each twice the light: 4 times are two of them.
test('light that falls off by a stop is taken out of a picture without bricks', async () => {
  const { value, warnings } = await mend(2);
  expect(value.light?.lightest).toMatch(/^top/);
  expect(value.light?.darkest).toMatch(/^foot/);
  expect(warnings.map(({ code }) => code)).not.toContain('uneven-light');
});

test('what differs by three stops without bricks is no light: it is left, and told', async () => {
  const { value, warnings } = await mend(8);
  expect(value.light).toBeNull();
  const [told] = warnings.filter(({ code }) => code === 'uneven-light');
  expect(told?.message).toMatch(
    /times as light at its top.* as at its foot.*: too much for light alone, and is left$/,
  );
});
