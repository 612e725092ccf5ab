import { extname } from 'node:path';
import { TextureError } from '../errors/texture-error.js';
import { showPath } from '../errors/show-path.js';
import type { Size } from '../units/parse-size.js';
import { loadSharp } from './load-sharp.js';

/** A picture of a file, to look at. */
export interface ShownFile {
  /** A JPEG, on white where the file is transparent. */
  readonly bytes: Uint8Array;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** Of a JPEG: what is shown at these sizes hides what it loses here. */
export const shownQuality = 80;
const plainDensity = 72;
// What the renderer takes.
const mostDensity = 2400;

/**
 * Make a small picture of a file that was written: of a picture, or of a drawing with what it links to.
 *
 * @param path - Where it lies; its extension tells a drawing from a picture.
 * @param fit - Given the file's own size in pixels, tells how large the picture is to be.
 * @returns The picture.
 * @throws TextureError when the file does not allow it.
 */
export async function showFile(
  path: string,
  fit: (own: Size<number>) => Size<number>,
): Promise<ShownFile> {
  const sharp = await loadSharp();
  const isDrawing = /^\.svgz?$/i.test(extname(path));
  const open = (density: number): ReturnType<typeof sharp> =>
    sharp(path, { limitInputPixels: false, unlimited: true, ...(isDrawing && { density }) });
  try {
    const { width, height } = await open(plainDensity).metadata();
    const size = fit({ width, height });
    // A drawing in millimetres grows by the square of the density: larger than asked for, never smaller.
    const density = Math.min(mostDensity, plainDensity * Math.max(1, size.width / width));
    const { data, info } = await open(density)
      .flatten({ background: 'white' })
      .resize({ ...size, fit: 'fill' })
      .toColourspace('srgb')
      .jpeg({ quality: shownQuality })
      .toBuffer({ resolveWithObject: true });
    return { bytes: data, width: info.width, height: info.height };
  } catch (cause) {
    throw new TextureError('damaged-picture', `${showPath(path)} could not be shown`, { cause });
  }
}
