import type { NamedScale } from '../../catalogue/find-scale.js';
import { outOfRange } from '../../errors/out-of-range.js';
import {
  type Dpi,
  dpi as toDpi,
  type PrintMm,
  type RealMm,
  toDots,
  toPrint,
  toReal,
} from '../../units/units.js';
import { reportScale, type ScaleReport } from './report-scale.js';

/** What {@link scaleLength} is to bring to the other side; one of `real` and `print`. */
export interface ScaleLengthOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** A length of the real thing. */
  readonly real?: RealMm;
  /** A length on paper. */
  readonly print?: PrintMm;
  /** Of the printer; 600 unless told. */
  readonly dpi?: Dpi;
}

/** One length, as the real thing and as the model have it. */
export interface ScaledLength {
  /** Of the real thing. */
  readonly realMm: number;
  /** On paper. */
  readonly printMm: number;
  /** Printed dots along it, seldom whole. */
  readonly dots: number;
  /** Of the printer. */
  readonly dpi: number;
  /** Of the model. */
  readonly scale: ScaleReport;
}

/**
 * Bring a length to a model scale, or back from it.
 *
 * @param options - The length, the scale and the printer.
 * @returns Both lengths, and the dots.
 * @throws RangeError when not exactly one length is given.
 */
export function scaleLength(options: ScaleLengthOptions): ScaledLength {
  const { scale, dpi = toDpi(600) } = options;
  const { real, print } = toBoth(options);
  return {
    realMm: real,
    printMm: print,
    dots: toDots(print, dpi),
    dpi,
    scale: reportScale(scale),
  };
}

function toBoth({ scale, real, print }: ScaleLengthOptions): { real: RealMm; print: PrintMm } {
  if (real !== undefined && print === undefined) {
    return { real, print: toPrint(real, scale.ratio) };
  }
  if (print !== undefined && real === undefined) {
    return { real: toReal(print, scale.ratio), print };
  }
  throw outOfRange('either a real or a printed length', 'real', real);
}
