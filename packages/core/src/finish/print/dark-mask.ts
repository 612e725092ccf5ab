import type { Raster } from '../../raster/raster.js';

// Light of what counts as black, as a share of the white about it: ink throws back a few per cent.
const dark = 0.3;
// Of a picture's longer side: wider than any patch, so that some white is about everything on the strip.
const reach = 24;

/**
 * Tell what is dark beside what is about it, however unevenly a picture is lit.
 *
 * @param picture - In linear light.
 * @returns 1 where it is dark, 0 elsewhere, row by row.
 */
export function darkMask(picture: Raster): Uint8Array {
  const { width, height, planes } = picture;
  const [red, green, blue] = planes;
  const side = Math.max(4, Math.ceil(Math.max(width, height) / reach / 2));
  const columns = Math.ceil(width / side);
  const rows = Math.ceil(height / side);
  const light = new Float32Array(width * height);
  const brightest = new Float32Array(columns * rows);
  for (let y = 0, i = 0; y < height; y++) {
    const row = Math.floor(y / side) * columns;
    for (let x = 0; x < width; x++, i++) {
      const here = (red[i]! + green[i]! + blue[i]!) / 3;
      light[i] = here;
      const block = row + Math.floor(x / side);
      if (here > brightest[block]!) brightest[block] = here;
    }
  }
  const limits = brightest.map((_, block) => dark * brightestAbout(brightest, block, columns));
  const mask = new Uint8Array(width * height);
  for (let y = 0, i = 0; y < height; y++) {
    const row = Math.floor(y / side) * columns;
    for (let x = 0; x < width; x++, i++) {
      if (light[i]! < limits[row + Math.floor(x / side)]!) mask[i] = 1;
    }
  }
  return mask;
}

function brightestAbout(blocks: Float32Array, block: number, columns: number): number {
  const [column, row] = [block % columns, Math.floor(block / columns)];
  let most = 0;
  for (let y = row - 1; y <= row + 1; y++) {
    for (let x = column - 1; x <= column + 1; x++) {
      if (x < 0 || x >= columns) continue;
      most = Math.max(most, blocks[y * columns + x] ?? 0);
    }
  }
  return most;
}
