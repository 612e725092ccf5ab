import { withLimits } from '../../read/held-limits.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { cropRaster } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import { toRows } from '../../raster/row-source.js';
import { readPhoto } from '../../read/read-photo.js';
import { type AxisCopies, findCopies } from '../../seam/copies/find-copies.js';
import { findOddAround } from '../../seam/calm/find-odd-around.js';
import { inspectSeams, type SeamInspection } from '../../seam/inspect/inspect-seams.js';
import { warnOfMirror } from '../../seam/inspect/warn-of-mirror.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { type Dpi, dpi as toDpi } from '../../units/units.js';
import { checkOutput } from '../../write/check-output.js';
import { writePicture } from '../../write/write-picture.js';
import { drawSeams, type RepeatAxis } from './draw-seams.js';
import type { MeasureRefusal } from '../measure/find-measurement.js';
import { heedPeriods } from './heed-periods.js';
import { beginStep } from '../job-options.js';
import { type InspectedSurface, openSurface, type SurfaceOptions } from '../open/open-surface.js';
import { type InspectedSeamReport, reportInspectedSeam } from './report-inspected-seam.js';
import { type OddReport, reportOdd } from './report-odd.js';
import { toFigures } from '../to-figures.js';
import { warnOfCopies } from '../measure/warn-of-copies.js';
import { warnOfOneColour } from '../extend/warn-of-one-colour.js';

/** What {@link inspectPhoto} may be told. */
export interface InspectPhotoOptions extends SurfaceOptions {
  /** Which way the picture is meant to repeat; `both` unless told. */
  readonly axis?: RepeatAxis;
  /** Of the printer; 600 unless told. With `scale` and `picture`, whose tiling it sizes. */
  readonly dpi?: Dpi;
  /** A picture to write that shows the seams. */
  readonly picture?: string;
}

/** How well a picture repeats. */
export interface InspectedPhoto {
  /** Laid side by side. */
  readonly x: InspectedSeamReport;
  /** Laid one above the other. */
  readonly y: InspectedSeamReport;
  /** In words. */
  readonly verdict: string;
  /** Places that catch the eye at each repeat, the oddest first. */
  readonly odd: readonly OddReport[];
  /** How large the picture prints, in millimetres, or null where the scale is not known. */
  readonly printSizeMm: Size<number> | null;
}

/**
 * Tell whether a picture repeats without a seam, and what will be seen at each repeat.
 *
 * @param path - Of the picture.
 * @param options - Which way, at what scale, and whether to draw it.
 * @returns Scores along both axes, odd places and a verdict, or why the picture could not be measured.
 * @throws RangeError when `dpi` stands alone.
 * @throws TextureError when a file does not allow it.
 */
export async function inspectPhoto(
  path: string,
  options: InspectPhotoOptions = {},
): Promise<Outcome<InspectedPhoto, MeasureRefusal>> {
  return withLimits(options, () => inspectWithin(path, options));
}

async function inspectWithin(
  path: string,
  options: InspectPhotoOptions,
): Promise<Outcome<InspectedPhoto, MeasureRefusal>> {
  const { axis = 'both', picture, scale, dpi = toDpi(600) } = options;
  if (options.dpi !== undefined && (scale === undefined || picture === undefined)) {
    throw outOfRange('a scale and a picture beside it', 'dpi', options.dpi);
  }
  if (picture !== undefined) await checkOutput(picture, { inputs: [path] });
  beginStep('reading', options);
  const photo = await readPhoto(path);
  const opened = await openSurface(photo, options);
  if (!opened.ok) return opened;
  beginStep('inspecting', options);
  const surface = opened.value;
  const { raster } = surface;
  const seams = heedPeriods(inspectSeams(raster), surface, axis);
  const copies = findCopies(raster);
  const period = periodOf(raster, copies);
  const odd = findOddAround(oneCopy(raster, period), goesOn({ seams, copies }));
  if (picture !== undefined) {
    beginStep('writing', options);
    const page = drawSeams(raster, { seams, axis, odd, print: printOf(surface, scale, dpi) });
    await writePicture(picture, toRows(page.raster, page.dpi), { inputs: [path] });
  }
  const mmPerPx = onPaper(surface, scale);
  const reports = odd.map((one) =>
    reportOdd(one, { period, axis, mmPerPx, onPaper: scale !== undefined }),
  );
  return {
    ok: true,
    value: {
      x: reportInspectedSeam(seams.x, 'x'),
      y: reportInspectedSeam(seams.y, 'y'),
      verdict: inWords(seams, axis, reports.length),
      odd: reports,
      printSizeMm: scale === undefined ? null : sizeIn(mmPerPx, raster),
    },
    warnings: [
      ...photo.warnings,
      ...opened.warnings,
      ...seams.warnings.filter(({ code }) => code !== 'mirrored'),
      ...warnOfMirror({ x: seams.x.mirror > 1, y: seams.y.mirror > 1 }, axis),
      ...warnOfOneColour(raster),
      ...warnOfCopies(copies, raster),
    ],
  };
}

// What lies over an end is whole where the ends meet.
function goesOn({
  seams,
  copies,
}: {
  readonly seams: SeamInspection;
  readonly copies: PerAxis<AxisCopies>;
}): PerAxis<boolean> {
  return {
    x: copies.x.period !== null || seams.x.seamless,
    y: copies.y.period !== null || seams.y.seamless,
  };
}

// What repeats, where the picture holds several copies.
function periodOf(raster: Raster, copies: PerAxis<AxisCopies>): Size<number> {
  return {
    width: Math.round(copies.x.period ?? raster.width),
    height: Math.round(copies.y.period ?? raster.height),
  };
}

function oneCopy(raster: Raster, period: Size<number>): Raster {
  const isWhole = period.width === raster.width && period.height === raster.height;
  return isWhole ? raster : cropRaster(raster, { x: 0, y: 0, ...period });
}

// Millimetres of paper to a pixel; of the real thing where there is no scale.
function onPaper(
  { mmPerPx }: InspectedSurface,
  scale: NamedScale | undefined,
): PerAxis<number> | null {
  const ratio = scale?.ratio ?? 1;
  return mmPerPx && { x: mmPerPx.x / ratio, y: mmPerPx.y / ratio };
}

function printOf(
  surface: InspectedSurface,
  scale: NamedScale | undefined,
  dpi: Dpi,
): { readonly mmPerPx: PerAxis<number>; readonly dpi: Dpi } | null {
  const mmPerPx = scale === undefined ? null : onPaper(surface, scale);
  return mmPerPx && { mmPerPx, dpi };
}

function sizeIn(mmPerPx: PerAxis<number> | null, { width, height }: Raster): Size<number> | null {
  return (
    mmPerPx && {
      width: toFigures(width * mmPerPx.x, 5),
      height: toFigures(height * mmPerPx.y, 5),
    }
  );
}

function inWords(seams: SeamInspection, axis: RepeatAxis, odd: number): string {
  const verdict = axis === 'both' ? seams.verdict : alongOne(seams, axis);
  if (odd === 0) return verdict;
  const places = odd === 1 ? 'one odd place' : `${odd} odd places`;
  return `${verdict}; ${places} will catch the eye at each repeat`;
}

function alongOne(seams: SeamInspection, axis: 'x' | 'y'): string {
  const { seamless, seamScore } = seams[axis];
  if (!seamless && seamScore <= 1) return 'is too small to tell';
  const repeats = seamless ? 'repeats without a seam' : 'shows a seam';
  return `${repeats} ${axis === 'x' ? 'side by side' : 'one above the other'}`;
}
