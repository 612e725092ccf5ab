import { basename } from 'node:path';
import type { Sidecar, SidecarPhoto } from '../surface/sidecar.js';
import { sidecarPath } from '../surface/sidecar-path.js';
import { toSidecarJson } from '../surface/to-sidecar-json.js';
import { checkOutput } from './check-output.js';
import { inTurn } from './in-turn.js';
import { writeAtomically } from './write-atomically.js';

/** A photo that a surface file is written for: what reading it gave. */
export type MeasuredFile = Omit<SidecarPhoto, 'file'> & {
  /** Of the photo. */
  readonly path: string;
};

/**
 * Keep a measurement in the surface file beside its photo, over an older one if there is one.
 *
 * @param photo - As read.
 * @param kept - Its measurement, and the notes to keep with it.
 * @returns The path of the file.
 * @throws TextureError when the place does not allow it.
 */
export async function writeSidecar(
  photo: MeasuredFile,
  kept: Omit<Sidecar, 'photo'>,
): Promise<string> {
  const { path: photoPath, sha256, width, height } = photo;
  const path = sidecarPath(photoPath);
  const text = toSidecarJson({
    ...kept,
    photo: { file: basename(photoPath), sha256, width, height },
  });
  const target = await checkOutput(path, { inputs: [photoPath], extensions: ['.json'] });
  await writeAtomically(path, target, inTurn([Buffer.from(text)]));
  return path;
}
