import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { TextureError, type TextureErrorCode } from '../../errors/texture-error.js';
import type { MeasureRefusal } from './find-measurement.js';
import type { MeasuredPhoto, MeasurePhotoOptions } from './measure-known.js';
import { checkMeasuring, measurePhoto } from './measure-photo.js';
import type { OfferedFormats } from './offer-formats.js';

/** What {@link measurePhotos} may be told: what holds of every photo alike. */
export type MeasurePhotosOptions = Omit<
  MeasurePhotoOptions,
  | 'courses'
  | 'spans'
  | 'lengths'
  | 'section'
  | 'brick'
  | 'corners'
  | 'rectangleSize'
  | 'overlay'
  | 'page'
>;

/** What became of one of several photos. */
export interface PhotoAnswer {
  /** Of the photo, as it was given. */
  readonly path: string;
  /**
   * Its measurement, or why there is none: what its file does not allow as well; `usage` where options make no sense
   * with this photo, `bug` for what should never be.
   */
  readonly outcome: Outcome<
    MeasuredPhoto | OfferedFormats,
    MeasureRefusal | TextureErrorCode | 'usage' | 'bug'
  >;
  /** What was thrown, where something was. */
  readonly cause?: Error;
}

// Counts and places are of one photo, and so is a file that is written of it.
const ofOne = [
  'courses',
  'spans',
  'lengths',
  'section',
  'brick',
  'corners',
  'rectangleSize',
  'overlay',
  'page',
] as const;

/**
 * Measure many photos, one after another, whatever becomes of each: what one does not allow is its answer, and the next
 * one's turn comes. No more than one photo is held, however many there are. Where the signal is aborted, its reason is thrown.
 *
 * @param paths - Where the photos lie.
 * @param options - What is known of all of them.
 * @returns What became of each, in the order given.
 * @throws RangeError when the options make no sense together, or speak of places in one photo.
 */
export function measurePhotos(
  paths: Iterable<string> | AsyncIterable<string>,
  options: MeasurePhotosOptions = {},
): AsyncGenerator<PhotoAnswer, void> {
  checkMeasuring(options);
  const told: MeasurePhotoOptions = options;
  for (const name of ofOne) {
    if (told[name] !== undefined) throw outOfRange('one photo', name, 'several');
  }
  return answers(paths, options);
}

async function* answers(
  paths: Iterable<string> | AsyncIterable<string>,
  options: MeasurePhotosOptions,
): AsyncGenerator<PhotoAnswer, void> {
  for await (const path of paths) yield await answer(path, options);
}

async function answer(path: string, options: MeasurePhotosOptions): Promise<PhotoAnswer> {
  try {
    return { path, outcome: await measurePhoto(path, options) };
  } catch (error) {
    options.signal?.throwIfAborted();
    const cause = error instanceof Error ? error : new Error(String(error));
    return { path, outcome: refused(cause), cause };
  }
}

function refused(cause: Error): Exclude<PhotoAnswer['outcome'], { readonly ok: true }> {
  if (cause instanceof TextureError) {
    const { code, message, hint, limit } = cause;
    const more = { ...(hint !== undefined && { hint }), ...(limit !== undefined && { limit }) };
    return { ok: false, code, message, ...more };
  }
  const [message = ''] = cause.message.split('\n', 1);
  const isUsage = cause instanceof RangeError && message.startsWith('expected ');
  return { ok: false, code: isUsage ? 'usage' : 'bug', message };
}
