import { TextureError } from '../../errors/texture-error.js';
import { lookLimits } from '../../measure/look-limits.js';
import { toRows } from '../../raster/row-source.js';
import { openPhoto } from '../../read/open-photo.js';
import type { ReportFound } from '../../report/report-content.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import { encodePicture } from '../../write/encode-picture.js';
import { enlargeMeasurement, measureLook } from '../measure/measure-reduced.js';
import { type MeasurementReport, reportMeasurement } from '../measure/report-measurement.js';
import { drawOverlay } from '../measure/write-overlay.js';
import type { FoundTask, View } from './view-task.js';

// Of the photo as drawn: lines and letters of an overlay can still be read, of many as of few.
const largest = 1080;
const smallest = 640;
const quality = 72;

/**
 * Draw what was found over a photo, as it was measured for its surface.
 *
 * @param task - Which.
 * @returns The picture, and what was found.
 * @throws TextureError where the photo does not allow it.
 */
export async function drawFound(task: FoundTask): Promise<View> {
  const { photo: path, options, mostPixels } = task;
  const opened = await openPhoto(path, { longest: lookLimits.longest });
  const { photo, found, times } = await measureLook(opened, { ...options, listed: true });
  if (!found.ok) throw new TextureError('not-a-picture', found.message);
  const { measurement, joints } = found.value;
  const whole = times === null ? measurement : enlargeMeasurement(measurement, times);
  const picture = drawOverlay(photo, found.value, options, {
    longest: Math.max(smallest, Math.min(largest, Math.floor(Math.sqrt(mostPixels)))),
    whole: { size: opened.look, measurement: whole },
  });
  return {
    bytes: await encodePicture(toRows(picture), { format: 'jpeg', quality }),
    width: picture.width,
    height: picture.height,
    found: toFound(reportMeasurement(whole, opened.look), joints, opened.look),
    size: null,
  };
}

function toFound(
  report: MeasurementReport,
  joints: FoundJoints | null,
  { width, height }: ReportFound['photo'],
): ReportFound {
  const { reference, mmPerPx, uncertaintyPercent, budget, confidence, method } = report;
  const { name, sizeMm, source } = reference;
  return {
    photo: { width, height },
    mmPerPx,
    uncertaintyPercent,
    budget,
    confidence,
    reference: { name, sizeMm, source },
    method,
    coursePx: report.coursePeriodPx,
    bond: report.bond,
    isStraightened: report.rectification !== null,
    shows: report.surfaceSizeMm,
    beds: joints?.beds.length ?? null,
    leftOut: joints?.leftOut.length ?? 0,
  };
}
