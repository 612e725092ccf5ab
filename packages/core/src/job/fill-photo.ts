import type { Outcome } from '../errors/outcome.js';
import { lookLimits } from '../measure/look-limits.js';
import { openPhoto } from '../read/open-photo.js';
import { checkOutput } from '../write/check-output.js';
import { checkQuality } from '../write/check-quality.js';
import type { FilledPhoto, FillPhotoOptions } from './fill-opened.js';
import type { MeasureRefusal } from './find-measurement.js';
import { beginStep } from './job-options.js';
import type { TileRefusal } from './make-tile.js';
import { planPart } from './plan-part.js';
import { checkReference } from './reference-options.js';

/**
 * Do the whole job: measure a photo, bring it to a model's scale, make it repeat, and write a
 * picture of exactly the size asked for.
 *
 * @param path - Where the photo lies.
 * @param options - What is known of it, the scale, the size, and where to write.
 * @returns What was written, or why the photo does not allow it.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function fillPhoto(
  path: string,
  options: FillPhotoOptions,
): Promise<Outcome<FilledPhoto, MeasureRefusal | TileRefusal | 'scale-doubtful'>> {
  const { kind } = checkReference(options);
  const part = planPart(options);
  checkQuality(options.output, options.quality);
  await checkOutput(options.output, { inputs: [path] });
  beginStep('reading', options);
  // Courses are looked for in a smaller picture; other references lie in all of the photo.
  const longest = kind === 'courses' ? lookLimits.longest : Infinity;
  // Most of the library is loaded while the decoder's own threads work.
  const [opened, { fillOpened }] = await Promise.all([
    openPhoto(path, { longest }),
    import('./fill-opened.js'),
  ]);
  return fillOpened(opened, part, options);
}
