import type { PictureWriter } from './format.js';
import { jpeg } from './jpeg.js';
import { png } from './png.js';
import { tiff } from './tiff.js';
import { webp } from './webp.js';

/** Every kind of picture that is written; the first is the one that is proposed. */
export const pictureFormats: readonly PictureWriter[] = [png, tiff, jpeg, webp];
