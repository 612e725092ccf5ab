import type { Outcome } from '../errors/outcome.js';
import { lookLimits } from '../measure/look-limits.js';
import { openPhoto } from '../read/open-photo.js';
import { type Dpi, dpi as toDpi, printMm } from '../units/units.js';
import { checkOpacity } from '../write/check-opacity.js';
import { checkOutput } from '../write/check-output.js';
import { pictureFormats } from '../write/formats/index.js';
import { checkQuality } from '../write/check-quality.js';
import { checkSvg } from './check-svg.js';
import type { FilledPhoto } from './fill-opened.js';
import type { FillPhotoOptions } from './fill-options.js';
import type { MeasureRefusal } from './find-measurement.js';
import { beginStep } from './job-options.js';
import type { TileRefusal } from './make-tile.js';
import { checkCorner } from './next-wall.js';
import { planPart } from './plan-part.js';
import type { OutlineSource, ReadOutline } from './read-outline.js';
import { checkReference } from './reference-options.js';
import { checkWeather } from './weather-options.js';

// A drawing and a page are exactly as large as the part, whatever its dots.
const fillExtensions = [...pictureFormats.flatMap(({ extensions }) => extensions), '.svg', '.pdf'];

// Of a part whose drawing is not read yet.
const anySize = { width: printMm(50), height: printMm(50) };

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
  const { outline: source, output, dpi = toDpi(600) } = options;
  checkQuality(output, options.quality);
  // All that can be refused without reading is.
  const part = planPart(options, source && anySize);
  checkSvg(options);
  if (options.weather !== undefined) checkWeather(options.weather);
  if (source !== undefined) checkOpacity(output);
  const inputs = [path, ...(source === undefined ? [] : [source.path])];
  await checkOutput(output, { inputs, extensions: fillExtensions });
  beginStep('reading', options);
  const outline = source === undefined ? null : await outlineOf(source, dpi);
  const cover = { part: outline === null ? part : planPart(options, outline.size), outline };
  checkCorner({ datum: { x: 0, y: 0 }, ...cover.part, isShaped: outline !== null }, options.corner);
  // Courses are looked for in a smaller picture; other references lie in all of the photo.
  const longest = kind === 'courses' ? lookLimits.longest : Infinity;
  // Most of the library is loaded while the decoder's own threads work; what measures and mends, where
  // nothing that was kept can say that the photo is a tile as it is.
  const [opened, { fillOpened }] = await Promise.all([
    openPhoto(path, { longest }),
    import('./fill-opened.js'),
    kind === 'kept' ? null : import('./mend-surface.js'),
  ]);
  return fillOpened(opened, cover, options);
}

// What reads drawings is loaded for those who have one.
async function outlineOf(source: OutlineSource, dpi: Dpi): Promise<ReadOutline> {
  const { readOutline } = await import('./read-outline.js');
  return readOutline(source, dpi);
}
