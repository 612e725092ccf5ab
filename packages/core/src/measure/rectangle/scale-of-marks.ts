import type { Homography } from '../../numeric/homography.js';
import { slopesAt } from '../../numeric/slopes-at.js';
import { solveHomography } from '../../numeric/solve-homography.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import { nudge } from './nudge.js';
import { pairCorners } from './pair-corners.js';
import type { Corners } from './sort-corners.js';

/** The photo, and how it was marked. */
export interface MarkedView extends Size<number> {
  /** Standard uncertainty (k = 1) of each corner, px. */
  readonly marks: number;
}

/** What marked corners leave unsure in a photo's scale: standard uncertainties, as fractions. */
export interface ScaleOfMarks {
  /** At the photo's middle. */
  readonly middle: number;
  /** Of the scale elsewhere, half way to the photo's corners, against that of the middle. */
  readonly elsewhere: number;
}

/**
 * Follow each corner's mark through the homography to the scale, along both axes.
 *
 * @param corners - In order.
 * @param real - What they span.
 * @param view - The photo.
 * @returns How sure the scale is.
 * @see JCGM 100:2008 (GUM), 5.1.2: each mark is its own part, and their squares add up
 */
export function scaleOfMarks(corners: Corners, real: Size<number>, view: MarkedView): ScaleOfMarks {
  const { width, height, marks } = view;
  const middle = { x: width / 2, y: height / 2 };
  const places = [0.25, 0.75].flatMap((u) =>
    [0.25, 0.75].map((v) => ({ x: u * width, y: v * height })),
  );
  const before = solveHomography(pairCorners(corners, real));
  let [own, others] = [0, 0];
  for (let i = 0; i < 8; i++) {
    const after = solveHomography(pairCorners(nudge(corners, i, marks), real));
    const at = changeAt(before, after, middle);
    own += (at.x ** 2 + at.y ** 2) / 2;
    for (const place of places) {
      const there = changeAt(before, after, place);
      others += ((there.x - at.x) ** 2 + (there.y - at.y) ** 2) / 2 / places.length;
    }
  }
  return { middle: Math.sqrt(own), elsewhere: Math.sqrt(others) };
}

// By how much, as a fraction, a step along each axis of the plane is longer by one map than by the other.
function changeAt(before: Homography, after: Homography, place: Point): Point {
  const [a, b, c, d] = slopesAt(before, place.x, place.y);
  const [e, f, g, h] = slopesAt(after, place.x, place.y);
  const area = a * d - b * c;
  return {
    x: (e * d - f * c) / area - 1,
    y: (h * a - g * b) / area - 1,
  };
}
