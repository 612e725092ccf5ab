import type { Warning } from '../errors/warning.js';
import type { Photo } from '../read/read-photo.js';
import type { Measurement } from '../surface/measurement.js';
import { estimateScale } from './estimate-scale.js';
import type { ReferenceOptions } from './reference-options.js';

/**
 * Hold an estimate from the distance against a measurement, which it never overrules.
 *
 * @param measurement - By something better.
 * @param photo - That was measured.
 * @param options - From where it was taken, where anybody told.
 * @returns A warning where the two differ by more than the estimate may be off.
 */
export function checkEstimate(
  measurement: Measurement,
  photo: Photo,
  options: Pick<ReferenceOptions, 'distance' | 'focal'>,
): readonly Warning[] {
  const { distance, focal = null } = options;
  if (distance === undefined) return [];
  const estimate = estimateScale(photo, { distance, focal });
  if (!estimate.ok) {
    return [{ code: 'estimate', message: `the distance tells nothing: ${estimate.message}` }];
  }
  const { mmPerPx, uncertaintyPercent } = estimate.value;
  const measured = Math.sqrt(measurement.mmPerPx.x * measurement.mmPerPx.y);
  const percent = 100 * (mmPerPx.x / measured - 1);
  if (Math.abs(percent) <= Math.hypot(uncertaintyPercent, measurement.uncertaintyPercent))
    return [];
  const message = `the distance speaks of ${mmPerPx.x.toPrecision(3)} mm per pixel, ${Math.abs(percent).toFixed(0)} % ${percent > 0 ? 'more' : 'less'} than measured: is the reference what it is said to be?`;
  return [{ code: 'estimate-disagrees', message }];
}
