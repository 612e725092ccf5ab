import { extname } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { pictureFormats } from './formats/index.js';

/**
 * Refuse a kind of picture that cannot be transparent, before the long work that leads to it.
 *
 * @param path - Of the picture to be written.
 * @throws TextureError `unsupported-output` where its kind knows only what is opaque.
 */
export function checkOpacity(path: string): void {
  const extension = extname(path).toLowerCase();
  const format = pictureFormats.find(({ extensions }) => extensions.includes(extension));
  if (format?.isOpaque !== true) return;
  const better = pictureFormats.flatMap(({ isOpaque, extensions }) =>
    isOpaque === true ? [] : extensions.slice(0, 1),
  );
  const message = `${showPath(path)} would be white outside the outline: a ${format.name} cannot be transparent`;
  throw new TextureError('unsupported-output', message, {
    hint: `name it ${better.slice(0, -1).join(', ')} or ${better.at(-1) ?? ''}`,
  });
}
