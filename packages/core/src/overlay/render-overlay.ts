import { outOfRange } from '../errors/out-of-range.js';
import { createRaster, type Raster } from '../raster/raster.js';
import { resampleRaster } from '../raster/resample-raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { Canvas } from './canvas.js';
import { createField } from './ink-field.js';
import { layCaption } from './lay-caption.js';
import { layPhoto } from './lay-photo.js';
import { layRod, rodRoom } from './lay-rod.js';
import { markCorners } from './mark-corners.js';
import { bedsOnPage, markJoints } from './mark-joints.js';
import { markLeftOut } from './mark-left-out.js';
import { markScale } from './mark-scale.js';
import { markSpans } from './mark-spans.js';
import type { OverlayContent } from './overlay-content.js';
import { choosePens } from './pens.js';
import { planCaption } from './plan-caption.js';
import type { WallFrame } from './wall-frame.js';

/** Long side of the photo as drawn, in pixels: fine enough to print, large enough to read. */
const largest = 2400;
const smallest = 1000;
/** Around all, in units. */
const margin = 14;
/** Narrowest room for the caption, in units. */
const leastWidth = 520;

/**
 * Draw what a measurement rests on over the photo: joints, marked lines, what was left out, a gauge
 * rod that numbers the courses, a scale bar on the wall, and a caption below. Letters are strokes of
 * our own, so the picture is the same on every machine. A photo over 2400 pixels a side is drawn
 * smaller, one under 1000 larger.
 *
 * @param photo - Upright, as measured; left as it is.
 * @param content - What to show of it.
 * @returns A new picture: white paper, the photo on it.
 * @throws RangeError when a point is not finite.
 */
export function renderOverlay(photo: Raster, content: OverlayContent): Raster {
  checkPoints(content);
  const { measurement, joints, spans, corners } = content;
  const canvas = layPage(photo, content);
  const size = { width: photo.width, height: photo.height };
  const wall = {
    size,
    photo: canvas.photo,
    rectification: (measurement ?? joints)?.rectification ?? null,
  };
  const seen = { ...wall, rectification: joints?.rectification ?? null };
  const beds = joints === null ? [] : bedsOnPage(seen, joints);
  const pens = choosePens(canvas, joints === null ? null : courseOnPage(joints, seen));
  if (joints !== null) {
    markJoints(canvas, seen, joints, pens);
    markLeftOut(canvas, seen, joints.leftOut, pens);
    layRod(canvas, beds, joints.axis);
  }
  if (corners !== null && measurement !== null)
    markCorners(canvas, wall, { corners, measurement }, pens);
  markSpans(canvas, wall, spans, pens);
  if (measurement !== null) markScale(canvas, wall, measurement, pens);
  const { caption, unit } = canvas;
  layCaption(canvas, caption, { x: margin * unit, y: canvas.photo.y + canvas.photo.height }, pens);
  return canvas.page;
}

function checkPoints({ spans, corners }: OverlayContent): void {
  const points = [...spans.flatMap(({ from, to }) => [from, to]), ...(corners ?? [])];
  for (const { x, y } of points) {
    if (Number.isFinite(x) && Number.isFinite(y)) continue;
    throw outOfRange('a point of the photo', 'point', `${x},${y}`);
  }
}

// A white page with the photo on it, and room for the rod and the caption.
function layPage(
  photo: Raster,
  content: OverlayContent,
): Canvas & { readonly caption: ReturnType<typeof planCaption> } {
  const long = Math.max(photo.width, photo.height);
  const drawnAt = long > largest ? largest / long : Math.max(1, smallest / long);
  const width = Math.max(1, Math.round(photo.width * drawnAt));
  const height = Math.max(1, Math.round(photo.height * drawnAt));
  const unit = Math.max(width, height) / 1000;
  const edge = Math.round(margin * unit);
  const room = Math.round(rodRoom * unit);
  const axis = content.joints?.axis;
  const left = axis === 'y' ? room : edge;
  const top = axis === 'x' ? room : edge;
  const inside = Math.max(Math.round(leastWidth * unit), left - edge + width);
  const caption = planCaption(content, { width: inside, unit, drawnAt });
  const page = createRaster(inside + 2 * edge, top + height + Math.ceil(caption.height));
  for (const plane of page.planes) plane.fill(1);
  const window = { x: left, y: top, width, height };
  const drawn = drawnAt === 1 ? photo : resampleRaster(photo, { width, height });
  layPhoto(page, drawn, window);
  return { page, field: createField(page.width, page.height), unit, photo: window, caption };
}

// Height of a course on the page, about: by the joints that were found.
function courseOnPage({ beds, axis }: FoundJoints, { size, photo }: WallFrame): number | null {
  const [first, last] = [beds[0], beds.at(-1)];
  if (first === undefined || last === undefined || beds.length < 2) return null;
  const scale = axis === 'y' ? photo.height / size.height : photo.width / size.width;
  return ((last.at - first.at) / (beds.length - 1)) * scale;
}
