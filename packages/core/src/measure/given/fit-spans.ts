/** A scale as one line gives it. */
export interface SpanScale {
  /** Real millimetres per pixel. */
  readonly scale: number;
  /** What marking its ends puts it out by (k = 1), a fraction. */
  readonly marks: number;
  /** What its own length puts it out by (k = 1), a fraction. */
  readonly length: number;
}

/** One scale for several lines. */
export interface SpansFit {
  /** Real millimetres per pixel. */
  readonly scale: number;
  /** How much of it each line gives; the sum is 1. */
  readonly shares: readonly number[];
  /** Standard uncertainties of `scale` as fractions: from marks, from lengths, together. */
  readonly marks: number;
  /** See `marks`. */
  readonly length: number;
  /** See `marks`. */
  readonly own: number;
  /** What the lines scatter beyond `own` (k = 1), a fraction; 0 where they do not. */
  readonly scatter: number;
}

/** Nothing is known better than this, as a fraction; it keeps weights finite. */
const finest = 1e-9;

const uncertaintyOf = ({ scale, marks, length }: SpanScale): number =>
  scale * Math.max(finest, Math.hypot(marks, length));

/**
 * Fit one scale to those of several lines, each weighing as much as it is sure: weighted least
 * squares. Where they scatter more than their uncertainties explain, what is missing is told.
 *
 * @param spans - One or more.
 * @returns The scale and what may put it out.
 * @see JCGM 100:2008 (GUM), equation 10; the scatter is a Birge ratio
 */
export function fitSpans(spans: readonly SpanScale[]): SpansFit {
  const weights = spans.map((span) => uncertaintyOf(span) ** -2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const shares = weights.map((weight) => weight / total);
  const scale = spans.reduce((sum, span, i) => sum + shares[i]! * span.scale, 0);
  const combined = (of: (span: SpanScale) => number): number =>
    Math.hypot(...spans.map((span, i) => shares[i]! * span.scale * of(span))) / scale;
  const own = 1 / Math.sqrt(total) / scale;
  const chi = spans.reduce((sum, span, i) => sum + weights[i]! * (span.scale - scale) ** 2, 0);
  const excess = spans.length > 1 ? chi / (spans.length - 1) - 1 : 0;
  return {
    scale,
    shares,
    marks: combined(({ marks }) => marks),
    length: combined(({ length }) => length),
    own,
    scatter: excess > 0 ? own * Math.sqrt(excess) : 0,
  };
}

/** How far two scales differ. */
export interface Apart {
  /** The first over the second, less 1. */
  readonly difference: number;
  /** The difference over its combined standard uncertainty. */
  readonly ratio: number;
}

/**
 * Hold one group of lines against another.
 *
 * @param spans - One or more.
 * @param others - One or more.
 * @returns How far their scales differ.
 * @see JCGM 100:2008 (GUM), equation 10
 */
export function compareSpans(spans: readonly SpanScale[], others: readonly SpanScale[]): Apart {
  const [a, b] = [fitSpans(spans), fitSpans(others)];
  const combined = Math.hypot(a.own * a.scale, b.own * b.scale);
  return { difference: a.scale / b.scale - 1, ratio: Math.abs(a.scale - b.scale) / combined };
}
