import { withLimits } from '../../read/held-limits.js';
import type { Outcome } from '../../errors/outcome.js';
import { lookLimits } from '../../measure/look-limits.js';
import type { LightOn } from './wall-relief.js';
import { openPhoto } from '../../read/open-photo.js';
import { type Dpi, dpi as toDpi, printMm } from '../../units/units.js';
import { checkOpacity } from '../../write/check-opacity.js';
import { checkOutput } from '../../write/check-output.js';
import { pictureFormats } from '../../write/formats/index.js';
import { checkQuality } from '../../write/check-quality.js';
import { checkSvg } from './check-svg.js';
import type { FilledPhoto } from './fill-surface.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import { beginStep } from '../job-options.js';
import type { SurfaceRefusal, TakeSurface } from '../surface/made-surface.js';
import { checkCorner } from './next-wall.js';
import type { Printing } from '../print/open-printing.js';
import { planPart } from './plan-part.js';
import { checkPrinting, printingFiles } from '../print/printing-options.js';
import type { OutlineSource, ReadOutline } from './read-outline.js';
import { checkReference } from '../measure/reference-options.js';
import type { WallReliefReport } from './wall-relief-options.js';
import { checkWeather } from '../weather/weather-options.js';

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
): Promise<Outcome<FilledPhoto, SurfaceRefusal>> {
  const { kind } = checkReference(options);
  const take: TakeSurface = async (_, wish) => {
    // Courses are looked for in a smaller picture; other references lie in all of the photo.
    const longest = kind === 'courses' ? lookLimits.longest : Infinity;
    // Most of the library is loaded while the decoder's own threads work; what measures and mends, where
    // nothing that was kept can say that the photo is a tile as it is.
    const [opened, { makeSurface }] = await Promise.all([
      openPhoto(path, { longest }),
      import('../surface/make-surface.js'),
      kind === 'kept' ? null : import('../surface/mend-surface.js'),
    ]);
    // All of it is decoded in threads of its own while the smaller picture is measured; whoever asks is
    // told of what went wrong.
    opened.lines().catch(() => undefined);
    return makeSurface(opened, wish);
  };
  return withLimits(options, () => fillFrom(take, path, options));
}

/**
 * The same with a surface from elsewhere.
 *
 * @param take - Brings it.
 * @param path - Where its photo lies.
 * @param options - As for {@link fillPhoto}.
 * @returns Likewise.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function fillFrom(
  take: TakeSurface,
  path: string,
  options: FillPhotoOptions,
): Promise<Outcome<FilledPhoto, SurfaceRefusal>> {
  const { outline: source, output, dpi = toDpi(600), method = 'auto', even = true } = options;
  checkQuality(output, options.quality);
  // All that can be refused without reading is.
  const part = planPart(options, source && anySize);
  checkSvg(options);
  if (options.weather !== undefined) checkWeather(options.weather);
  const lit = await settleRelief(options);
  checkPrinting(options.printing);
  if (source !== undefined) checkOpacity(output);
  const outlines = source === undefined ? [] : [source.path];
  const inputs = [path, ...outlines, ...printingFiles(options.printing)];
  await checkOutput(output, { inputs, extensions: fillExtensions });
  beginStep('reading', options);
  const outline = source === undefined ? null : await outlineOf(source, dpi);
  const cover = { part: outline === null ? part : planPart(options, outline.size), outline };
  checkCorner({ datum: { x: 0, y: 0 }, ...cover.part, isShaped: outline !== null }, options.corner);
  const lights = await lightsOf(lit, cover, options);
  const printing = await printingOf(path, options);
  const [surface, { fillSurface }] = await Promise.all([
    take(path, { ...options, dpi, method, even }),
    import('./fill-surface.js'),
  ]);
  if (!surface.ok) return surface;
  const filled = await fillSurface(surface.value, cover, {
    ...options,
    inputs,
    lights,
    lit,
    ready: printing,
  });
  return { ok: true, value: filled.value, warnings: [...surface.warnings, ...filled.warnings] };
}

// What lights walls is loaded for those who want it.
async function settleRelief(options: FillPhotoOptions): Promise<WallReliefReport | null> {
  if (options.relief === undefined) return null;
  const { settleWallRelief } = await import('./wall-relief.js');
  return settleWallRelief(options);
}

async function lightsOf(
  lit: WallReliefReport | null,
  cover: PartToCover,
  options: FillPhotoOptions,
): Promise<readonly LightOn[]> {
  if (lit === null) return [];
  const { wallFinish } = await import('./wall-relief.js');
  return [wallFinish(lit, cover, options)];
}

// What changes colours is loaded for those who ask for it, and a bad profile refused before the photo is read.
async function printingOf(path: string, { printing }: FillPhotoOptions): Promise<Printing | null> {
  if (printing === undefined) return null;
  const { openPrinting } = await import('../print/open-printing.js');
  return openPrinting(printing, [path]);
}

// What reads drawings is loaded for those who have one.
async function outlineOf(source: OutlineSource, dpi: Dpi): Promise<ReadOutline> {
  const { readOutline } = await import('./read-outline.js');
  return readOutline(source, dpi);
}
