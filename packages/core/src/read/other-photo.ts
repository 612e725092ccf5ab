import { access } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import type { SidecarPhoto } from '../surface/sidecar.js';
import { sidecarPath } from '../surface/sidecar-path.js';
import { isSamePhoto } from './is-same-photo.js';
import type { Photo } from './read-photo.js';

/**
 * Tell whether a surface file belongs to another photo, which lies in the same folder: `wall.png`
 * and `wall.jpg` would share one.
 *
 * @param kept - The photo that the surface file names.
 * @param photo - The photo that it lies beside.
 * @returns What to refuse it with, or null where it may be this photo's.
 */
export async function otherPhoto(
  kept: SidecarPhoto,
  photo: Pick<Photo, 'path' | 'sha256'>,
): Promise<TextureError | null> {
  if (isSamePhoto(kept, photo)) return null;
  const { path } = photo;
  const [file, name] = [basename(kept.file), basename(path)];
  if (!(await isThere(join(dirname(path), file)))) return null;
  const sidecar = sidecarPath(path);
  return new TextureError(
    'stale-sidecar',
    `${showPath(sidecar)} is of another photo, ${showPath(file)}, not of ${showPath(name)}`,
    { hint: `rename one of them: both would be kept in ${showPath(basename(sidecar))}` },
  );
}

async function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}
