import { outOfRange } from '../errors/out-of-range.js';
import { createRaster, type Raster } from '../raster/raster.js';
import { resampleRaster } from '../raster/resample-raster.js';
import { shrinkRaster } from '../raster/shrink-raster.js';
import type { Canvas } from './canvas.js';
import { createField } from './ink-field.js';
import { keepSeen } from './keep-seen.js';
import { layCaption } from './lay-caption.js';
import { layPhoto } from './lay-photo.js';
import { layRod } from './lay-rod.js';
import { markCorners } from './mark-corners.js';
import { bedsOnPage, markJoints } from './mark-joints.js';
import { markLeftOut } from './mark-left-out.js';
import { markScale } from './mark-scale.js';
import { markSpans } from './mark-spans.js';
import type { OverlayContent } from './overlay-content.js';
import { choosePens } from './pens.js';
import { type OverlayOptions, type PagePlan, planPage } from './plan-page.js';

/**
 * Draw what a measurement rests on over the photo: joints, marked lines, what was left out, a gauge
 * rod that numbers the courses, a scale bar on the wall, and a caption below. Letters are strokes of
 * our own, so the picture is the same on every machine. A photo over 2400 pixels a side is drawn
 * smaller, one under 1000 larger.
 *
 * @param photo - Upright, as measured; left as it is.
 * @param content - What to show of it.
 * @param options - How large, and whose numbers it tells.
 * @returns A new picture: white paper, the photo on it.
 * @throws RangeError when a point is not finite, or a size makes no sense.
 */
export function renderOverlay(
  photo: Raster,
  content: OverlayContent,
  options: OverlayOptions = {},
): Raster {
  checkPoints(content);
  checkSize(options);
  const size = { width: photo.width, height: photo.height };
  const joints = content.joints && keepSeen(size, content.joints);
  const plan = planPage(size, { ...content, joints }, options);
  const canvas = layPage(photo, plan);
  const { measurement, spans, corners } = content;
  const wall = {
    size,
    photo: plan.photo,
    scale: plan.scale,
    rectification: (measurement ?? joints)?.rectification ?? null,
  };
  const seen = { ...wall, rectification: joints?.rectification ?? null };
  const pens = choosePens(canvas, plan.scale, joints);
  if (joints !== null) {
    markJoints(canvas, seen, joints, pens);
    markLeftOut(canvas, seen, joints.leftOut, pens);
    layRod(canvas, bedsOnPage(seen, joints), joints.axis);
  }
  if (measurement !== null) {
    if (corners !== null) markCorners(canvas, wall, { corners, measurement }, pens);
    markScale(canvas, wall, measurement, pens);
  }
  markSpans(canvas, wall, spans, pens);
  layCaption(canvas, plan, pens);
  return canvas.page;
}

function checkPoints({ spans, corners }: OverlayContent): void {
  const points = [...spans.flatMap(({ from, to }) => [from, to]), ...(corners ?? [])];
  for (const { x, y } of points) {
    if (Number.isFinite(x) && Number.isFinite(y)) continue;
    throw outOfRange('a point of the photo', 'point', `${x},${y}`);
  }
}

function checkSize({ longest = 100, whole }: OverlayOptions): void {
  if (!(longest >= 100 && longest <= 1e4)) throw outOfRange('100 to 10000', 'longest', longest);
  const { width, height } = whole?.size ?? { width: 1, height: 1 };
  if (!(width >= 1 && height >= 1))
    throw outOfRange('a photo of 1 pixel or more', 'whole', `${width} x ${height}`);
}

function layPage(photo: Raster, plan: PagePlan): Canvas {
  const { width, height, unit, photo: window, times } = plan;
  const page = createRaster(width, height);
  for (const plane of page.planes) plane.fill(1);
  const shrunk = shrinkRaster(photo, times);
  const isDone = shrunk.width === window.width && shrunk.height === window.height;
  layPhoto(page, isDone ? shrunk : resampleRaster(photo, window), window);
  return { page, field: createField(width, height), unit, photo: window };
}
