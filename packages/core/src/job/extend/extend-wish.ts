import type { NamedScale } from '../../catalogue/find-scale.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { type Dpi, dpi as toDpi, mmPerInch, type PrintMm, type RealMm } from '../../units/units.js';
import { planPart } from '../fill/plan-part.js';

/** How large a tile is wanted: one of `size` (with `scale`), `realSize` and `times`. */
export interface ExtendSizeOptions {
  /** Size on paper, up to 10 m; with `scale`. */
  readonly size?: Size<PrintMm>;
  /** Size of the real thing. */
  readonly realSize?: Size<RealMm>;
  /** So many times the first photo, 1 to 100 each way, not both 1: without `scale` it needs no measurement. */
  readonly times?: PerAxis<number>;
  /** Of the model, where the tile is to be at print resolution; else it is as fine as the first photo. */
  readonly scale?: NamedScale;
  /** Of the printer, 10 to 4800; 600 unless told; with `scale`. */
  readonly dpi?: Dpi;
}

/** How fine a print is. */
interface Print {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Millimetres of the real thing to a dot. */
  readonly mmPerDot: number;
}

/** What is wanted, checked. */
export type ExtendWish = (
  | {
      /** Times the first photo. */
      readonly kind: 'times';
      /** Each way. */
      readonly times: PerAxis<number>;
    }
  | {
      /** A real size. */
      readonly kind: 'size';
      /** Millimetres of the real thing. */
      readonly mm: Size<number>;
    }
) & {
  /** As fine as that prints, or null for as fine as the first photo. */
  readonly print: Print | null;
};

const mostTimes = 100;
// Past a kilometre of wall a finger slipped.
const longestSide = 1e6;

/**
 * Settle how large a tile is to be, before anything is read.
 *
 * @param options - As the caller gave them.
 * @returns What is wanted.
 * @throws RangeError when it is not said in one way, or cannot be.
 */
export function checkExtendSize(options: ExtendSizeOptions): ExtendWish {
  const { size, realSize, times, scale, dpi } = options;
  const said = [size, realSize, times].filter((one) => one !== undefined).length;
  if (said !== 1) {
    const what = 'one of a size on paper, a real size and times the photo';
    throw outOfRange(what, 'size', said === 0 ? undefined : `${said} of them`);
  }
  if (scale === undefined) {
    if (dpi !== undefined) throw outOfRange('a scale beside it', 'dpi', dpi);
    if (size !== undefined)
      throw outOfRange('a scale beside a size on paper, or a real size instead', 'scale', scale);
  }
  const print = scale === undefined ? null : printOf(scale, dpi);
  if (times !== undefined) return { kind: 'times', times: checkTimes(times), print };
  if (scale === undefined) return { kind: 'size', mm: checkReal(realSize), print };
  const paper = planPart({ ...options, scale });
  const { ratio } = scale;
  const mm = { width: paper.width * ratio, height: paper.height * ratio };
  return { kind: 'size', mm, print };
}

function printOf(scale: NamedScale, dpi = toDpi(600)): Print {
  return { scale, dpi, mmPerDot: (mmPerInch * scale.ratio) / dpi };
}

function checkTimes(times: PerAxis<number>): PerAxis<number> {
  const { x, y } = times;
  const fits = [x, y].every((one) => one >= 1 && one <= mostTimes) && x * y > 1;
  if (!fits) throw outOfRange(`1 to ${mostTimes} each way, not both 1,`, 'times', `${x}x${y}`);
  return times;
}

function checkReal(size: Size<RealMm> | undefined): Size<number> {
  const { width = 0, height = 0 } = size ?? {};
  if (width > 0 && height > 0 && width <= longestSide && height <= longestSide) {
    return { width, height };
  }
  throw outOfRange('up to 1 km each way', 'realSize', `${width} x ${height} mm`);
}
