import type { Outcome } from '../../errors/outcome.js';
import type { MeasureRefusal } from './find-measurement.js';

/** Why a photo was not measured. */
export type Refusal = Extract<
  Outcome<never, MeasureRefusal>,
  {
    /** No. */
    readonly ok: false;
  }
>;

/**
 * Where a photo shows no courses, hint at what helps in a command that takes no other reference.
 *
 * @param refusal - Why it was not measured.
 * @returns The same refusal, with a hint that can be followed.
 */
export function hintKept(refusal: Refusal): Refusal {
  if (refusal.code !== 'no-courses') return refusal;
  const hint =
    'measure it in another way and keep that (gaugerod measure --save), or leave --course out';
  return { ...refusal, hint };
}
