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
import { type PagePlan, planPage } from './plan-page.js';

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
  const size = { width: photo.width, height: photo.height };
  const joints = content.joints && keepSeen(size, content.joints);
  const plan = planPage(size, { ...content, joints });
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

function layPage(photo: Raster, plan: PagePlan): Canvas {
  const { width, height, unit, photo: window, times } = plan;
  const page = createRaster(width, height);
  for (const plane of page.planes) plane.fill(1);
  const larger = window.width > photo.width || window.height > photo.height;
  const drawn = larger ? resampleRaster(photo, window) : shrinkRaster(photo, times);
  layPhoto(page, drawn, window);
  return { page, field: createField(width, height), unit, photo: window };
}
