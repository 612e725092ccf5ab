/** The shape of a piece of card: what lies inside its loops, by a rule. */
export interface PartOutline {
  /** Closed lines, each of points x, y, x, y… in mm of paper, right and down; the last joins the first. */
  readonly loops: readonly Float64Array[];
  /** What counts as inside, so that a loop within another is a hole or is not. */
  readonly rule: FillRule;
}

/**
 * `nonzero`: where loops wind round a point more one way than the other; `evenodd`: where a line from
 * it outwards crosses them an odd number of times.
 *
 * @see Scalable Vector Graphics (SVG) 2, 13.4.2: the fill-rule property
 */
export type FillRule = 'nonzero' | 'evenodd';

/** A rectangle round an outline, in its units. */
export interface OutlineBox {
  /** Left. */
  readonly x0: number;
  /** Top. */
  readonly y0: number;
  /** Right. */
  readonly x1: number;
  /** Bottom. */
  readonly y1: number;
}

/**
 * The smallest rectangle round loops.
 *
 * @param loops - Of points x, y, x, y….
 * @returns It; inside out where there is no point.
 */
export function boxOfLoops(loops: readonly Float64Array[]): OutlineBox {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i += 2) {
      x0 = Math.min(x0, loop[i]!);
      x1 = Math.max(x1, loop[i]!);
      y0 = Math.min(y0, loop[i + 1]!);
      y1 = Math.max(y1, loop[i + 1]!);
    }
  }
  return { x0, y0, x1, y1 };
}
