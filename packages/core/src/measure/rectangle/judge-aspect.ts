import type { Point } from '../../units/parse-point.js';
import type { FocalLength } from '../find-focal-length.js';
import { usualFocal } from '../usual-focal.js';
import { nudge } from './nudge.js';
import { viewAspect, viewFocal } from './see-rectangle.js';
import type { Corners } from './sort-corners.js';

/** How many times as wide as high a rectangle is, and how sure. */
export interface JudgedAspect {
  /** Width over height. */
  readonly aspect: number;
  /** Standard uncertainty (k = 1) of `aspect`, as a fraction. */
  readonly uncertainty: number;
}

/** What is known of the view beside the corners. */
export interface ViewOfCorners {
  /** Columns of the photo. */
  readonly width: number;
  /** Rows of the photo. */
  readonly height: number;
  /** Focal length, where it is known. */
  readonly focal: FocalLength | undefined;
  /** Standard uncertainty (k = 1) of each corner as marked, px. */
  readonly marks: number;
}

// None is known better than this (k = 1), as a fraction: a picture may have been cut a little.
const leastOpen = 0.03;
// A view that tells the focal length so well needs no help; one that tells it so badly gives none.
const tellsWell = 0.05;
const tellsBadly = 0.5;

/**
 * Judge a rectangle's shape by one view of it. The focal length that its sides meet by is joined
 * with what the camera noted or, where it is badly told, with what is usual.
 *
 * @param corners - In order, in pixels of the photo.
 * @param view - The photo.
 * @returns The shape. Its uncertainty is that of the marks and of the focal length, to second
 *   order: that of a small or nearly square view is none of first order.
 * @see JCGM 100:2008 (GUM), 5.1.2, and the note to it on higher orders
 */
export function judgeAspect(corners: Corners, view: ViewOfCorners): JudgedAspect {
  const middle = { x: view.width / 2, y: view.height / 2 };
  const expected = view.focal ?? usualFocal(view);
  const spread = Math.max(leastOpen, expected.uncertainty);
  const told = tellFocal(corners, middle, view.marks);
  const alone = view.focal === undefined && told < tellsWell;
  const share = alone ? 1 : told > tellsBadly ? 0 : spread ** 2 / (spread ** 2 + told ** 2);
  const aspectOf = (marked: Corners, prior: number): number => {
    const seen = share === 0 ? null : viewFocal(marked, middle);
    const focal = Math.exp((1 - share) * prior + share * (seen === null ? prior : Math.log(seen)));
    return Math.log(viewAspect(marked, middle, focal));
  };
  const prior = Math.log(expected.px);
  const at = aspectOf(corners, prior);
  let [first, second] = [0, 0];
  const add = (plus: number, minus: number): void => {
    first += ((plus - minus) / 2) ** 2;
    second += Math.abs((plus + minus) / 2 - at);
  };
  for (let i = 0; i < 8; i++) {
    const [plus, minus] = [view.marks, -view.marks].map((by) =>
      aspectOf(nudge(corners, i, by), prior),
    );
    add(plus ?? at, minus ?? at);
  }
  add(aspectOf(corners, prior + spread), aspectOf(corners, prior - spread));
  return { aspect: Math.exp(at), uncertainty: Math.sqrt(first + 3 * second ** 2) };
}

// Standard uncertainty of the logarithm of the focal length that a view tells.
function tellFocal(corners: Corners, middle: Point, marks: number): number {
  let sum = 0;
  for (let i = 0; i < 8; i++) {
    const plus = viewFocal(nudge(corners, i, marks), middle);
    const minus = viewFocal(nudge(corners, i, -marks), middle);
    if (plus === null || minus === null) return Infinity;
    sum += (Math.log(plus / minus) / 2) ** 2;
  }
  return Math.sqrt(sum);
}
