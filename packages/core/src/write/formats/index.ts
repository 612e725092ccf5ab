import type { PictureWriter } from './format.js';
import { png } from './png.js';

/** Every kind of picture that is written; the first is the one that is proposed. */
export const pictureFormats: readonly PictureWriter[] = [png];
