import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';

// What is called a picture, those that are not read among them: it is said of them, one by one.
const pictureName = /\.(?:jpe?g|jpe|jfif|png|webp|tiff?|avif|gif|hei[cf]|bmp|jp2|jxl|psd)$/i;

/**
 * List photos, those of a folder in its place: what is called a picture in it, by name. Folders inside it, and what is
 * hidden, are passed over.
 *
 * @param paths - Of photos and folders. What is not there, a folder without pictures and one that may not be looked
 *   into are left in the list, for their reader to refuse.
 * @returns Of photos, in the order given.
 */
export async function listPhotos(paths: readonly string[]): Promise<readonly string[]> {
  const listed: string[] = [];
  for (const path of paths) {
    const pictures = (await isFolder(path)) ? await picturesIn(path).catch(() => [path]) : [path];
    for (const picture of pictures) listed.push(picture);
  }
  return listed;
}

/**
 * Refuse a folder that {@link listPhotos} leaves in its list.
 *
 * @param path - Of a photo or a folder.
 * @throws TextureError `no-file` where a folder holds no pictures, `unreadable` where it may not be looked into.
 */
export async function refuseFolder(path: string): Promise<void> {
  if (await isFolder(path)) await picturesIn(path);
}

async function isFolder(path: string): Promise<boolean> {
  if (path.includes('\0')) return false;
  return stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
}

async function picturesIn(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch((cause: unknown) => {
    const message = `${showPath(folder)} is a folder that may not be looked into`;
    throw new TextureError('unreadable', message, { cause });
  });
  const names = entries
    .filter((entry) => !entry.isDirectory() && !entry.name.startsWith('.'))
    .map(({ name }) => name)
    .filter((name) => pictureName.test(name));
  if (names.length === 0) {
    throw new TextureError('no-file', `${showPath(folder)} is a folder without pictures in it`, {
      hint: 'name the pictures, or the folder they lie in',
    });
  }
  return names.toSorted((a, b) => (a < b ? -1 : 1)).map((name) => join(folder, name));
}
