import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import type { Measurement, Reference, UncertaintyPart } from '../../surface/measurement.js';
import { formatLength } from '../../units/format-length.js';
import type { Point } from '../../units/parse-point.js';
import { type RealMm, realMm } from '../../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';
import type { FocalLength } from '../find-focal-length.js';
import { fitSpans } from './fit-spans.js';
import { judgeSpans, type PlacedSpan } from './judge-spans.js';
import { refuseOutside } from './refuse-outside.js';
import { refuseShort } from './refuse-short.js';
import { slantPart } from './slant-part.js';
import { chanceOfRight } from '../joints/spread-of-course.js';
import type { Size } from '../../units/parse-size.js';

/** A line in a picture whose real length is known. */
export interface KnownSpan {
  /** One end. */
  readonly from: Point;
  /** The other. */
  readonly to: Point;
  /** Real length from one to the other. */
  readonly length: RealMm;
  /** Standard uncertainty (k = 1) of each end as marked, px; 1 unless told. */
  readonly markUncertainty?: number;
  /** Standard uncertainty (k = 1) of `length`, a fraction; 0 unless told. */
  readonly lengthUncertainty?: number;
}

/** What {@link measureSpans} may be told. */
export interface MeasureSpansOptions {
  /**
   * What every line is, such as the depth of one rolled section: its uncertainty is common to all,
   * so that more lines do not make it less. Without it the lengths are the user's own.
   */
  readonly reference?: Reference;
  /** Whether that is a rolled section or any other span, the default. */
  readonly method?: 'span' | 'section';
  /**
   * Degrees by which the photo may be off square, either way; 0, which is square for certain,
   * unless told.
   */
  readonly slant?: number;
  /** The lens that sees it so, where known. */
  readonly focal?: FocalLength;
}

/** How one line stands to the scale that all give. */
export interface SpanResidual {
  /** Its real length. */
  readonly length: RealMm;
  /** Its length in the picture. */
  readonly px: number;
  /** Real millimetres per pixel by it alone. */
  readonly mmPerPx: number;
  /** That over the scale of all, less 1, in per cent. */
  readonly residualPercent: number;
  /** Whether it counts; not where it contradicts the others or repeats one. */
  readonly used: boolean;
}

/** Why lines may not do. */
export type SpansRefusal = 'outside-photo' | 'span-too-short';

/** A measurement made from lines of known length. */
export interface MeasuredSpans extends Measurement {
  /** Every line, in the order given. */
  readonly spans: readonly SpanResidual[];
}

/**
 * Measure a picture by lines of known length, taken to be in one plane that is square to the
 * camera: weighted least squares, each line held against the others.
 *
 * @param size - The picture, upright.
 * @param known - One line or more.
 * @param options - What they are of, and how square the photo is.
 * @returns Millimetres per pixel, the same both ways, or why a line will not do.
 * @throws RangeError when there is none, when ends are less than a pixel apart, when an uncertainty
 *   or `slant` is below 0, or when one line is given two lengths.
 */
export function measureSpans(
  size: Size<number>,
  known: readonly KnownSpan[],
  options: MeasureSpansOptions = {},
): Outcome<MeasuredSpans, SpansRefusal> {
  const { method = 'span', slant = 0, focal } = options;
  if (!(slant >= 0 && slant < 45)) throw outOfRange('degrees from 0 up to 45', 'slant', slant);
  if (known.length === 0) throw outOfRange('one span or more', 'spans', 'none');
  const refusal = refuseOutside(
    size,
    known.flatMap(({ from, to }) => [from, to]),
  );
  if (refusal) return refusal;
  const placed = known.map(placeSpan);
  const repeats = findRepeats(known);
  const { used, confidence, warnings } = judgeSpans(
    placed.filter(({ number }) => !repeats.has(number)),
  );
  const counting = placed.filter(({ number }) => used.includes(number));
  const { reference = ownReference(counting.map(({ number }) => known[number - 1]!)) } = options;
  const fit = fitSpans(counting);
  const short = refuseShort(fit.marks);
  if (short) return short;
  const lines = counting.map(({ number }, i) => ({
    span: known[number - 1]!,
    share: fit.shares[i]!,
  }));
  const common = options.reference === undefined ? 0 : reference.uncertainty;
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * Math.hypot(fit.length, common) },
    { source: 'marks', percent: 100 * fit.marks },
    ...(fit.scatter > 0 ? [{ source: 'fit', percent: 100 * fit.scatter } as const] : []),
    ...slantPart(size, lines, { degrees: slant, focal }),
  ];
  return {
    ok: true,
    warnings: [...tellRepeats(repeats), ...warnings],
    value: {
      method,
      reference: { ...reference, uncertainty: Math.hypot(fit.length, common) },
      mmPerPx: { x: fit.scale, y: fit.scale },
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      // That these are the lines that were meant, and that they place the scale within 1 %.
      confidence: confidence * chanceOfRight(ownUncertainty(budget), Infinity),
      rectification: null,
      lattice: null,
      spans: placed.map(({ scale, dx, dy, number }, i) => ({
        length: known[i]!.length,
        px: Math.hypot(dx, dy),
        mmPerPx: scale,
        residualPercent: 100 * (scale / fit.scale - 1),
        used: used.includes(number),
      })),
    },
  };
}

// What the reference itself puts it out by is told apart: it has nothing to do with the picture.
function ownUncertainty(budget: readonly UncertaintyPart[]): number {
  const own = budget.filter(({ source }) => source !== 'reference');
  return expandUncertainty(own) / 200;
}

function placeSpan(span: KnownSpan, index: number): PlacedSpan {
  const { from, to, length, markUncertainty = 1, lengthUncertainty = 0 } = span;
  if (!(markUncertainty >= 0)) {
    throw outOfRange('a number of pixels of 0 or more', 'markUncertainty', markUncertainty);
  }
  if (!(lengthUncertainty >= 0)) {
    throw outOfRange('a fraction of 0 or more', 'lengthUncertainty', lengthUncertainty);
  }
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const distance = Math.hypot(dx, dy);
  if (!(distance >= 1)) {
    throw outOfRange(
      'two points a pixel or more apart',
      'spans',
      `${from.x},${from.y} ${to.x},${to.y}`,
    );
  }
  return {
    number: index + 1,
    dx,
    dy,
    scale: realMm(length / distance),
    // Both ends are marked by hand: two equal, independent parts.
    marks: (Math.SQRT2 * markUncertainty) / distance,
    length: lengthUncertainty,
  };
}

/** Ends as near as this, px, are the same ends: nobody marks nearer. */
const sameEnd = 2;

function isSame(a: KnownSpan, b: KnownSpan): boolean {
  const near = (p: Point, q: Point): boolean => Math.hypot(p.x - q.x, p.y - q.y) <= sameEnd;
  return (near(a.from, b.from) && near(a.to, b.to)) || (near(a.from, b.to) && near(a.to, b.from));
}

// Lines that another repeats, by number, with the number of that other.
function findRepeats(known: readonly KnownSpan[]): ReadonlyMap<number, number> {
  const repeats = new Map<number, number>();
  for (const [i, span] of known.entries()) {
    const first = known.findIndex((other) => isSame(other, span));
    if (first === i) continue;
    if (known[first]!.length !== span.length) {
      const both = `${known[first]!.length} mm and ${span.length} mm`;
      throw outOfRange(
        `one length for spans ${first + 1} and ${i + 1}, the same line,`,
        'lengths',
        both,
      );
    }
    repeats.set(i + 1, first + 1);
  }
  return repeats;
}

function tellRepeats(repeats: ReadonlyMap<number, number>): Warning[] {
  return [...repeats].map(([number, first]) => ({
    code: 'spans-repeat',
    message: `span ${number} is span ${first} again and counts once: it tells nothing new`,
  }));
}

function ownReference(known: readonly KnownSpan[]): Reference {
  const size = realMm(Math.max(...known.map(({ length }) => length)));
  const several = `${known.length} spans of known length, the longest ${formatLength(size)}`;
  return {
    id: 'own',
    name: known.length > 1 ? several : 'span of known length',
    size,
    uncertainty: 0,
    source: 'given by the user',
  };
}
