import { basename } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { BadField } from '../surface/fields.js';
import type { Measurement } from '../surface/measurement.js';
import { NewerSidecar, parseSidecar } from '../surface/parse-sidecar.js';
import type { Sidecar } from '../surface/sidecar.js';
import { sidecarPath } from '../surface/sidecar-path.js';
import { otherPhoto } from './other-photo.js';
import type { Photo } from './read-photo.js';
import { readSidecarText } from './read-sidecar-text.js';

/** A surface file as read. */
export interface FoundSidecar extends Sidecar {
  /** Of the file. */
  readonly path: string;
}

function quote(path: string): string {
  const plain = path.startsWith('-') ? `./${path}` : path;
  const shown = showPath(plain);
  return /^[\w./:\\+@%-]+$/.test(shown) ? shown : `'${shown.replaceAll("'", String.raw`'\''`)}'`;
}

// What to say instead of what was said last time; without knowing that, the usual.
function knownThings(measurement: Measurement | undefined): string {
  const { id = 'uk-metric', size = 0 } = measurement?.reference ?? {};
  const method = measurement?.method ?? 'courses';
  if (method === 'rectangle') return '--corners "x,y x,y x,y x,y" --real-size WxH';
  if (method === 'span') return `--span "x,y x,y" --length ${size}mm`;
  const course = isCatalogueId(id) ? id : `${size}mm`;
  return method === 'count' ? `--courses N --course ${course}` : `--course ${course}`;
}

function isCatalogueId(id: string): boolean {
  return id !== 'own' && /^[a-z][a-z\d-]*$/.test(id);
}

function measureAgain(path: string, measurement?: Measurement): string {
  return `measure it again: gaugerod measure ${quote(path)} ${knownThings(measurement)} --save`;
}

function checkPhoto(found: FoundSidecar, photo: SidecarOwner): void {
  const { file, sha256, width, height } = found.photo;
  const [shown, name] = [showPath(found.path), showPath(basename(photo.path))];
  const hint = measureAgain(photo.path, found.measurement);
  if (sha256 !== photo.sha256) {
    const message =
      file.normalize() === basename(photo.path).normalize()
        ? `${shown} is of another state of ${name}: the photo has changed since it was measured`
        : `${shown} is of another photo, ${showPath(file)}, not of ${name}`;
    throw new TextureError('stale-sidecar', message, { hint });
  }
  if (width !== photo.width || height !== photo.height) {
    const message = `${shown} says that ${name} is ${width} x ${height} pixels, but it is ${photo.width} x ${photo.height}`;
    throw new TextureError('bad-sidecar', message, { hint });
  }
}

/** What a surface file is held against. */
export type SidecarOwner = Pick<Photo, 'path' | 'sha256' | 'width' | 'height'>;

/**
 * Read the surface file beside a photo and hold it against the photo.
 *
 * @param photo - As read.
 * @returns What was kept, or null where there is no such file.
 * @throws TextureError `bad-sidecar`, `newer-sidecar` or `stale-sidecar`, with the command that measures again; or why the file could not be read.
 */
export async function readSidecar(photo: SidecarOwner): Promise<FoundSidecar | null> {
  const path = sidecarPath(photo.path);
  const shown = showPath(path);
  const hint = measureAgain(photo.path);
  try {
    const text = await readSidecarText(path);
    if (text === null) return null;
    const found = { path, ...parseSidecar(text) };
    const other = await otherPhoto(found.photo, photo);
    if (other !== null) throw other;
    checkPhoto(found, photo);
    return found;
  } catch (cause) {
    if (cause instanceof NewerSidecar) {
      const newer = `use a newer gaugerod, or ${hint}`;
      throw new TextureError('newer-sidecar', `${shown}: ${cause.message}`, { hint: newer, cause });
    }
    if (!(cause instanceof BadField)) throw cause;
    const message = `${shown} is no surface file: ${showPath(cause.message)}`;
    throw new TextureError('bad-sidecar', message, { hint, cause });
  }
}
