import type { Outcome } from '../../errors/outcome.js';
import { lookLimits } from '../../measure/look-limits.js';
import { openPhoto, type OpenedPhoto } from '../../read/open-photo.js';
import { findFinished } from './find-finished.js';
import { layFinished } from './lay-finished.js';
import type { MadeSurface, MakeSurfaceOptions, SurfaceRefusal } from './made-surface.js';

/**
 * Open a photo that is to become a surface.
 *
 * @param path - Where it lies.
 * @returns It, being decoded in the decoder's own threads.
 * @throws TextureError when the file does not allow it.
 */
export async function openForSurface(path: string): Promise<OpenedPhoto> {
  const opened = await openPhoto(path, { longest: lookLimits.longest });
  // Whoever asks is told of what went wrong.
  opened.lines().catch(() => undefined);
  return opened;
}

/**
 * Measure a photo, bring it to a model's scale, and make it repeat.
 *
 * @param opened - The photo.
 * @param options - What is known of it, the scale, the resolution.
 * @returns What repeats, or why the photo does not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function makeSurface(
  opened: OpenedPhoto,
  options: MakeSurfaceOptions,
): Promise<Outcome<MadeSurface, SurfaceRefusal>> {
  const kept = await findFinished(opened.look, options);
  const laid = kept && (await layFinished(opened, kept, options));
  if (laid !== null) return laid;
  // What measures and mends is most of the library, and is loaded for those who need it.
  const { mendSurface } = await import('./mend-surface.js');
  return mendSurface(opened, options);
}
