import { findCourses } from '../../measure/find-courses.js';
import type { SpanResidual } from '../../measure/given/measure-spans.js';
import type { Corners } from '../../measure/rectangle/sort-corners.js';
import type { MarkedSpan, OverlayContent } from '../../overlay/overlay-content.js';
import type { OverlayOptions } from '../../overlay/plan-page.js';
import { renderOverlay } from '../../overlay/render-overlay.js';
import type { Raster } from '../../raster/raster.js';
import { toRows } from '../../raster/row-source.js';
import type { Photo } from '../../read/read-photo.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import type { Measurement } from '../../surface/measurement.js';
import { writePicture } from '../../write/write-picture.js';
import { namesReference, type ReferenceOptions } from './reference-options.js';

/** How far courses may differ from those that were kept, as a fraction, and still be the same. */
const same = 0.02;

/** What there is to show of a photo. */
export interface ToShow {
  /** Or null where nobody knows how big its courses are. */
  readonly measurement: Measurement | null;
  /** Or null where none were looked for. */
  readonly joints: FoundJoints | null;
  /** The spans it rests on, each held against the others, or null where it rests on none. */
  readonly spans?: readonly SpanResidual[] | null;
  /** The corners it rests on, in order, or null where it rests on none. */
  readonly corners?: Corners | null;
}

/**
 * Write a picture of what a measurement rests on.
 *
 * @param path - Where to.
 * @param photo - As read.
 * @param shown - What was found.
 * @param options - What the measurement was made from.
 * @throws TextureError when the place does not allow it.
 */
export async function writeOverlay(
  path: string,
  photo: Photo,
  shown: ToShow,
  options: ReferenceOptions = {},
): Promise<void> {
  const drawn = drawOverlay(photo, shown, options);
  await writePicture(path, toRows(drawn), { inputs: [photo.path] });
}

/**
 * Draw what a measurement rests on over its photo.
 *
 * @param photo - As read.
 * @param shown - What was found.
 * @param options - What the measurement was made from.
 * @param page - How large, and whose numbers it tells.
 * @returns The picture.
 */
export function drawOverlay(
  photo: Photo,
  shown: ToShow,
  options: ReferenceOptions = {},
  page: OverlayOptions = {},
): Raster {
  const { measurement } = shown;
  const content: OverlayContent = {
    measurement,
    joints: shown.joints ?? findAgain(photo, measurement, options),
    spans: toSpans(photo, shown.spans ?? null, options),
    corners: shown.corners ?? null,
  };
  return renderOverlay(photo.raster, content, page);
}

// A file beside the photo keeps no joints: they are looked for anew, and shown where they are the
// same.
function findAgain(
  { raster }: Photo,
  measurement: Measurement | null,
  options: ReferenceOptions,
): FoundJoints | null {
  if (namesReference(options) || !measurement?.lattice) return null;
  const { lattice, rectification } = measurement;
  const straighten = rectification === null ? 'none' : 'full';
  const again = findCourses(raster, { axis: lattice.axis, straighten });
  if (!again.ok) return null;
  const { value } = again;
  return Math.abs(value.course / lattice.course - 1) <= same ? value.found : null;
}

function toSpans(
  { width, height }: Photo,
  residuals: readonly SpanResidual[] | null,
  options: ReferenceOptions,
): MarkedSpan[] {
  const { spans = [], courses = null, axis = 'y' } = options;
  if (spans.length > 0) {
    return spans.map(([from, to], i) => ({
      from,
      to,
      length: residuals?.[i]?.length ?? null,
      courses,
      residualPercent: spans.length > 1 ? (residuals?.[i]?.residualPercent ?? null) : null,
      used: residuals?.[i]?.used ?? true,
    }));
  }
  if (courses === null) return [];
  const [x, y] = [width / 2, height / 2];
  const whole =
    axis === 'y'
      ? { from: { x, y: 0 }, to: { x, y: height } }
      : { from: { x: 0, y }, to: { x: width, y } };
  return [{ ...whole, length: null, courses, residualPercent: null, used: true }];
}
