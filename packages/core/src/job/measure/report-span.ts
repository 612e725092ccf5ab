import type { SpanResidual } from '../../measure/given/measure-spans.js';
import { toFigures } from '../to-figures.js';

/** A line of known length as it is reported: plain numbers, units in the names. */
export interface SpanReport {
  /** Its real length. */
  readonly lengthMm: number;
  /** Its length in the photo; where that is rectified, in the level picture. */
  readonly px: number;
  /** Real millimetres per pixel by it alone. */
  readonly mmPerPx: number;
  /** That over the measurement, less 1. */
  readonly residualPercent: number;
  /** Whether it counts; not where it contradicts the others or repeats one. */
  readonly used: boolean;
}

/**
 * Report a line of known length.
 *
 * @param span - As measured.
 * @returns The same in plain numbers.
 */
export function reportSpan(span: SpanResidual): SpanReport {
  return {
    lengthMm: span.length,
    px: toFigures(span.px, 6),
    mmPerPx: toFigures(span.mmPerPx, 6),
    residualPercent: toFigures(span.residualPercent, 3),
    used: span.used,
  };
}
