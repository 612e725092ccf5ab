import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { applyHomography, type Homography } from '../../numeric/homography.js';
import { multiplyHomographies } from '../../numeric/multiply-homographies.js';
import { solveHomography } from '../../numeric/solve-homography.js';
import type { Rectification, UncertaintyPart } from '../../surface/measurement.js';
import { rectificationFault } from '../../surface/rectification-fault.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import type { RealMm } from '../../units/units.js';
import type { FocalLength } from '../find-focal-length.js';
import { judgeAspect, type JudgedAspect } from '../rectangle/judge-aspect.js';
import { pairCorners } from '../rectangle/pair-corners.js';
import { scaleOfMarks } from '../rectangle/scale-of-marks.js';
import { type Corners, sortCorners } from '../rectangle/sort-corners.js';
import { refuseOutside } from './refuse-outside.js';

/** A rectangle in a picture: a wall, a door, a window, a sheet of paper. */
export interface KnownRectangle {
  /** Its four corners in pixels of the photo, in any order. */
  readonly corners: readonly Point[];
  /** How large it really is; without that, its shape is judged by the view of it. */
  readonly realSize?: Size<RealMm> | undefined;
  /** Focal length, where it is known. */
  readonly focal?: FocalLength | undefined;
  /** Standard uncertainty (k = 1) of each corner as marked, px; 1 unless told. */
  readonly markUncertainty?: number;
}

/** How a photo that shows a rectangle is made level. */
export interface RectangleView {
  /** Its corners in order. */
  readonly corners: Corners;
  /** From photo to level picture. */
  readonly rectification: Rectification;
  /** How many times as wide as high it is, and how sure; certain where its size is known. */
  readonly shape: JudgedAspect;
  /** Real millimetres per pixel of the level picture; null where its size is not known. */
  readonly mmPerPx: number | null;
  /** How unsure corners leave it: marks where its size is known, and perspective. */
  readonly budget: readonly UncertaintyPart[];
}

// Worth a word: the shape's expanded uncertainty (k = 2), as a fraction.
const leastSure = 0.05;
// A shape that contradicts the size given by more standard uncertainties than this, and by more
// than marks of a careless hand.
const contradicts = { times: 3, least: 0.03 };
// More than this is no careless hand: another thing was marked, or its sides are exchanged.
const senseless = Math.log(1.25);

/** Why the corners of a rectangle may not do. */
export type RectangleRefusal = 'outside-photo' | 'too-slanted' | 'contradictory-size';

/**
 * Find out by the four corners of a rectangle how a photo is made level, and, where its size is
 * known, how big everything in its plane is.
 *
 * @param size - The photo, upright.
 * @param known - Its corners, and what else is known of it.
 * @returns How it is made level, or why the corners will not do.
 * @throws RangeError when the corners are no rectangle's.
 */
export function measureRectangle(
  size: Size<number>,
  known: KnownRectangle,
): Outcome<RectangleView, RectangleRefusal> {
  const { corners: given, realSize, focal, markUncertainty: marks = 1 } = known;
  if (!(marks >= 0)) throw outOfRange('a number of pixels of 0 or more', 'markUncertainty', marks);
  const sorted = sortCorners(given);
  const refusal = refuseOutside(size, given);
  if (refusal) return refusal;
  const { corners } = sorted;
  const { width, height } = size;
  const seen = judgeAspect(corners, { width, height, focal, marks });
  const real = realSize ?? { width: seen.aspect, height: 1 };
  if (contradiction(seen, real) > senseless) return contradictory(seen, real);
  const plane = solveHomography(pairCorners(corners, real));
  const { rectification, unit } = keepMiddle(plane, size);
  if (rectificationFault(rectification, size) !== null) return tooSlanted;
  const shape =
    realSize === undefined ? seen : { aspect: real.width / real.height, uncertainty: 0 };
  const mark = scaleOfMarks(corners, real, { width, height, marks });
  const budget: UncertaintyPart[] = [
    ...(realSize === undefined ? [] : [{ source: 'marks', percent: 100 * mark.middle } as const]),
    { source: 'perspective', percent: 100 * Math.hypot(mark.elsewhere, shape.uncertainty) },
  ];
  return {
    ok: true,
    value: { corners, rectification, shape, mmPerPx: realSize === undefined ? null : unit, budget },
    warnings: [
      ...(sorted.given ? [] : [tellOrder(corners)]),
      ...warnOfShape(shape),
      ...warnOfSize(seen, real),
    ],
  };
}

const tooSlanted: Extract<Outcome<never, 'too-slanted'>, { ok: false }> = {
  ok: false,
  code: 'too-slanted',
  message:
    'the plane of the corners runs out of sight within the photo, or is seen all but edge on',
  hint: 'crop the photo to the wall, or mark corners that lie farther apart',
};

// The level picture keeps the photo's middle in its place, and its area there.
function keepMiddle(
  plane: Homography,
  { width, height }: Size<number>,
): { readonly rectification: Rectification; readonly unit: number } {
  const [a, b, c, d, e, f, g, h, i] = plane;
  const w = g * (width / 2) + h * (height / 2) + i;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const unit = Math.sqrt(Math.abs(determinant / w ** 3));
  const at = applyHomography(plane, width / 2, height / 2);
  const [x, y] = [width / 2 - at.x / unit, height / 2 - at.y / unit];
  const place: Homography = [1 / unit, 0, x, 0, 1 / unit, y, 0, 0, 1];
  return { rectification: { matrix: multiplyHomographies(place, plane), lens: 0 }, unit };
}

function tellOrder(corners: Corners): Warning {
  const order = corners.map(({ x, y }) => `${x},${y}`).join(' ');
  return {
    code: 'corners-sorted',
    message: `the corners were put in order, clockwise from the top left: ${order}`,
  };
}

function warnOfShape({ aspect, uncertainty }: JudgedAspect): Warning[] {
  if (2 * uncertainty <= leastSure) return [];
  const percent = Math.min(999, Math.ceil(200 * uncertainty));
  const message = `this view tells badly how many times as wide as high the rectangle is: ${aspect.toFixed(2)}, give or take ${percent} %; its size would settle that`;
  return [{ code: 'uncertain-aspect', message }];
}

// By how much more than its uncertainty allows the shape differs from that given; 0 where it does not.
function contradiction(seen: JudgedAspect, real: Size<number>): number {
  const off = Math.abs(Math.log((seen.aspect * real.height) / real.width));
  return off > contradicts.times * seen.uncertainty + contradicts.least ? off : 0;
}

function warnOfSize(seen: JudgedAspect, real: Size<number>): Warning[] {
  if (contradiction(seen, real) === 0) return [];
  const message = `${compareShapes(seen, real)}: is it one rectangle?`;
  return [{ code: 'contradictory-size', message }];
}

function contradictory(
  seen: JudgedAspect,
  { width, height }: Size<number>,
): Extract<Outcome<never, 'contradictory-size'>, { ok: false }> {
  const exchanged = `${inMetres(height)}x${inMetres(width)}m`;
  const swapped = contradiction(seen, { width: height, height: width }) <= senseless;
  return {
    ok: false,
    code: 'contradictory-size',
    message: compareShapes(seen, { width, height }),
    hint: swapped
      ? `is the size the other way round (--real-size ${exchanged})? the width comes first`
      : 'mark the four corners of one rectangle, and give its width and height',
  };
}

function compareShapes({ aspect }: JudgedAspect, { width, height }: Size<number>): string {
  return `the corners look ${aspect.toFixed(2)} times as wide as high, but the size given is ${(width / height).toFixed(2)} times`;
}

const inMetres = (mm: number): number => Number((mm / 1000).toPrecision(6));
