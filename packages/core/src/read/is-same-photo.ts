import { basename } from 'node:path';
import type { SidecarPhoto } from '../surface/sidecar.js';
import type { Photo } from './read-photo.js';

/**
 * Tell whether a surface file means a photo: by its bytes, whatever it is called now, or by its
 * name, whatever was done to it since.
 *
 * @param kept - The photo that the surface file names.
 * @param photo - As read.
 * @returns True where it does.
 */
export function isSamePhoto(kept: SidecarPhoto, photo: Pick<Photo, 'path' | 'sha256'>): boolean {
  return kept.sha256 === photo.sha256 || kept.file.normalize() === basename(photo.path).normalize();
}
