import type { NamedScale } from '../../catalogue/find-scale.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { PartToFill } from '../../fill/fill-rows.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import {
  type Dpi,
  dpi as toDpi,
  type PrintMm,
  printMm,
  type RealMm,
  toDots,
  toPrint,
} from '../../units/units.js';
import { checkDatum } from './next-wall.js';

/** A piece of card to cover. One of `size`, `realSize` and an outline. */
export interface PartOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Size on paper, up to 10 m. */
  readonly size?: Size<PrintMm>;
  /** Size of the real thing that the print stands for. */
  readonly realSize?: Size<RealMm>;
  /** Of the printer, 10 to 4800; 600 unless told. */
  readonly dpi?: Dpi;
  /** Extra picture past every edge, to be cut away, in mm of paper, 0 to 100; 0 unless told. */
  readonly bleed?: number;
  /**
   * Millimetres of paper from the wall's datum to this piece's top left corner, right and down, of
   * any sign up to 1 km, so that the courses of two pieces run on; 0,0 unless told.
   */
  readonly datum?: PerAxis<number>;
}

// Past these a finger slipped; past 2^31 - 1 dots no picture goes.
const longestSide = 10_000;
const widestBleed = 100;
const mostDots = 2 ** 31 - 1;

/**
 * Settle everything about a piece's size, before anything is read or allocated.
 *
 * @param options - As the caller gave them.
 * @param drawn - What the outline measures on paper, where there is one.
 * @returns The piece on paper.
 * @throws RangeError when no such piece can be made.
 */
export function planPart(
  options: PartOptions,
  drawn?: Size<PrintMm>,
): PartToFill & { readonly dpi: Dpi } {
  const { dpi = toDpi(600), bleed = 0, datum = { x: 0, y: 0 } } = options;
  if (!(dpi >= 10 && dpi <= 4800)) throw outOfRange('10 to 4800', 'dpi', dpi);
  if (!(bleed >= 0 && bleed <= widestBleed))
    throw outOfRange('0 to 100 mm', 'bleed', `${bleed} mm`);
  checkDatum(datum);
  const margin = bleed === 0 ? null : printMm(bleed);
  const paper = toPaper(options, drawn);
  checkPaper(paper, nameOf(options, drawn), { dpi, margin });
  return { ...paper, dpi, datum, bleed: margin };
}

function nameOf({ size }: PartOptions, drawn: Size<PrintMm> | undefined): string {
  if (drawn !== undefined) return 'outline';
  return size === undefined ? 'realSize' : 'size';
}

function checkPaper(
  { width, height }: Size<PrintMm>,
  name: string,
  { dpi, margin }: { readonly dpi: Dpi; readonly margin: PrintMm | null },
): void {
  const paper = `${Number(width.toPrecision(6))} x ${Number(height.toPrecision(6))} mm of paper`;
  if (!(width <= longestSide && height <= longestSide)) {
    throw outOfRange('up to 10 m of paper each way', name, paper);
  }
  const [across, down] = [Math.round(toDots(width, dpi)), Math.round(toDots(height, dpi))];
  if (across < 1 || down < 1) throw outOfRange(`a dot or more at ${dpi} dpi`, name, paper);
  const most = `up to ${mostDots} dots in all at ${dpi} dpi`;
  if (across * down > mostDots) throw outOfRange(most, name, paper);
  const around = margin === null ? 0 : 2 * Math.round(toDots(margin, dpi));
  if ((across + around) * (down + around) > mostDots) {
    throw outOfRange(most, 'bleed', `${margin ?? 0} mm round ${paper}`);
  }
}

function toPaper(
  { size, realSize, scale }: PartOptions,
  drawn: Size<PrintMm> | undefined,
): Size<PrintMm> {
  const real = realSize && {
    width: toPrint(realSize.width, scale.ratio),
    height: toPrint(realSize.height, scale.ratio),
  };
  const told = [size, real, drawn].filter((one) => one !== undefined);
  const [paper] = told;
  if (paper !== undefined && told.length === 1) return paper;
  const what = 'one of a size on paper, a real size and an outline';
  throw outOfRange(what, 'size', paper && `${told.length} of them`);
}
