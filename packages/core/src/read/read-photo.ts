import { withLimits } from './held-limits.js';
import { openPhoto } from './open-photo.js';
import type { Photo, ReadPhotoOptions } from './photo.js';

export type { Photo, ReadPhotoOptions } from './photo.js';

/**
 * Read a photo: JPEG, PNG, WebP, TIFF, AVIF or GIF, told by its bytes. The file is read once, so
 * that hash and pixels are of the same bytes; it is refused past its limits before anything of it is
 * decoded. Several frames: the first, with a warning. 16 bits stay 16 bits.
 *
 * @param path - Of the file.
 * @param options - How much it may ask for.
 * @returns The picture, upright, in linear light, and what its file says of itself.
 * @throws TextureError when the file does not allow it; its message names the file.
 * @throws RangeError when a limit lies where it cannot.
 */
export async function readPhoto(path: string, options: ReadPhotoOptions = {}): Promise<Photo> {
  return (await withLimits(options, () => openPhoto(path, options))).look;
}
