import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';

/**
 * Draw a wall as a JPEG of 24 megapixels, once: like any photo, it is no whole number of bricks wide
 * or of courses high.
 *
 * @returns Where it lies, and the folder for what is made of it.
 */
export async function drawLargeWall(): Promise<{
  readonly folder: string;
  readonly photo: string;
}> {
  const folder = join(process.cwd(), 'out', 'bench');
  mkdirSync(folder, { recursive: true });
  const photo = join(folder, 'wall-of-24-megapixels.jpg');
  if (!existsSync(photo)) {
    console.log('drawing the photograph once ...');
    const wall = drawWall({
      bond: 'english',
      format: 'uk-metric',
      coursePx: 62.5,
      width: 6040,
      height: 3970,
      seed: 2401,
    });
    writeFileSync(photo, await encodePhoto(wall.raster, { format: 'jpeg', quality: 90 }));
  }
  return { folder, photo };
}
