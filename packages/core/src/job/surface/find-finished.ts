import type { Photo } from '../../read/photo.js';
import { type FoundSidecar, readSidecar } from '../../read/read-sidecar.js';
import type { MakeSurfaceOptions } from './made-surface.js';
import { checkReference } from '../measure/reference-options.js';

/**
 * Find out whether a photo is known to be a tile as it is: by what was kept beside it, when nothing else
 * is said of it.
 *
 * @param photo - As read; it need not have been brought to light.
 * @param options - What is known of it.
 * @returns What was kept, or null where the photo is to be looked at.
 * @throws TextureError when the file kept beside the photo does not allow it.
 */
export async function findFinished(
  photo: Pick<Photo, 'path' | 'sha256' | 'width' | 'height'>,
  options: MakeSurfaceOptions,
): Promise<FoundSidecar | null> {
  // Upright courses contradict what was kept, which is told elsewhere.
  if (checkReference(options).kind !== 'kept' || options.axis !== undefined) return null;
  const kept = await readSidecar(photo);
  return kept?.finished === true ? kept : null;
}
