import type { Warning } from '../../errors/warning.js';
import type { Photo } from '../../read/read-photo.js';
import type { Measurement } from '../../surface/measurement.js';
import { estimateScale } from './estimate-scale.js';
import type { ReferenceOptions } from './reference-options.js';

/** What an estimate has to say of a measurement. */
export interface EstimateCheck {
  /** Where the two differ by more than they may be off. */
  readonly warnings: readonly Warning[];
  /** 0 to 1: the measurement is no surer. */
  readonly mostConfidence: number;
}

/** A reference that the distance contradicts is seldom what was said: as spans that disagree. */
const doubted = 0.3;

/**
 * Hold an estimate from the distance against a measurement, which it may put in doubt and never
 * overrules.
 *
 * @param measurement - By something better.
 * @param photo - That was measured.
 * @param options - From where it was taken, where anybody told.
 * @returns What it says; nothing where the distance is not known.
 */
export function checkEstimate(
  measurement: Measurement,
  photo: Photo,
  options: Pick<ReferenceOptions, 'distance' | 'focal'>,
): EstimateCheck {
  const { distance, focal = null } = options;
  if (distance === undefined) return { warnings: [], mostConfidence: 1 };
  const estimate = estimateScale(photo, { distance, focal });
  if (!estimate.ok) {
    const message = `the distance tells nothing: ${estimate.message}`;
    return { warnings: [{ code: 'estimate', message }], mostConfidence: 1 };
  }
  const { mmPerPx, uncertaintyPercent } = estimate.value;
  const measured = Math.sqrt(measurement.mmPerPx.x * measurement.mmPerPx.y);
  const percent = 100 * (mmPerPx.x / measured - 1);
  if (Math.abs(percent) <= Math.hypot(uncertaintyPercent, measurement.uncertaintyPercent)) {
    return { warnings: [], mostConfidence: 1 };
  }
  const message = `the distance speaks of ${mmPerPx.x.toPrecision(3)} mm per pixel, ${Math.abs(percent).toFixed(0)} % ${percent > 0 ? 'more' : 'less'} than measured: is the reference what it is said to be?`;
  return { warnings: [{ code: 'estimate-disagrees', message }], mostConfidence: doubted };
}
