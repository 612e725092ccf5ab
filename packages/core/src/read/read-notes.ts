import { BadField } from '../surface/fields.js';
import { NewerSidecar, parseSidecar } from '../surface/parse-sidecar.js';
import type { Sidecar } from '../surface/sidecar.js';
import { sidecarPath } from '../surface/sidecar-path.js';
import { isSamePhoto } from './is-same-photo.js';
import { otherPhoto } from './other-photo.js';
import type { Photo } from './read-photo.js';
import { readSidecarText } from './read-sidecar-text.js';

/** What a person noted of a photo, which outlives its measurement. */
export type Notes = Pick<Sidecar, 'licence' | 'credit'>;

const none: Notes = { licence: null, credit: null };

/**
 * Read the notes kept beside a photo before its surface file is written anew: from a measurement of
 * an older state of it as well, since its terms stay.
 *
 * @param photo - As read.
 * @returns Its notes; none where there is no surface file, or one that is not of this photo
 *   or cannot be understood.
 * @throws TextureError `stale-sidecar` when the file is another photo's, which lies beside it; or
 *   why it could not be read.
 */
export async function readNotes(photo: Pick<Photo, 'path' | 'sha256'>): Promise<Notes> {
  const kept = await readKept(sidecarPath(photo.path));
  if (kept === null) return none;
  const other = await otherPhoto(kept.photo, photo);
  if (other !== null) throw other;
  if (!isSamePhoto(kept.photo, photo)) return none;
  const { licence, credit } = kept;
  return { licence, credit };
}

async function readKept(path: string): Promise<Sidecar | null> {
  try {
    const text = await readSidecarText(path);
    return text === null ? null : parseSidecar(text);
  } catch (cause) {
    if (cause instanceof BadField || cause instanceof NewerSidecar) return null;
    throw cause;
  }
}
