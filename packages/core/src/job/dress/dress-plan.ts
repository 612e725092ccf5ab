import { type Box, boxAround, cornersOf } from '../../drawing/geometry/box.js';
import { compose, type Matrix } from '../../numeric/matrix.js';
import { attributesOf } from '../../drawing/attributes-of.js';
import type { Drawing } from '../../drawing/drawing.js';
import { BadDrawing } from '../../drawing/bad-drawing.js';
import type { Outline } from '../../drawing/dress/find-outlines.js';
import type { MatchedOutline } from '../../drawing/dress/match-keys.js';
import { followShape } from '../../drawing/outline/follow-shape.js';
import { TextureError } from '../../errors/texture-error.js';
import { shareOfBox } from '../../fill/outline/share-of-box.js';
import { dotsUnder, type Lattice, layLattice } from '../../drawing/dress/lattice.js';
import { type Cover, planCover, type Stretch } from '../../drawing/dress/plan-cover.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Dpi, mmPerInch } from '../../units/units.js';

/** An outline, and the dots that cover it. */
export interface LaidOutline extends MatchedOutline {
  /** The surface's dots, as they lie under it. */
  readonly lattice: Lattice;
  /** Which of them, from the datum; whole numbers. */
  readonly dots: Box;
}

/** An outline that is meant and cannot be covered. */
export interface LeftOutline {
  /** The outline. */
  readonly matched: MatchedOutline;
  /** Why, to follow its name. */
  readonly why: string;
}

/** How a drawing's paper is divided into dots. */
export interface LayOptions {
  /** The drawing. */
  readonly drawing: Drawing;
  /** Millimetres of paper at which a course begins. */
  readonly datum: PerAxis<number>;
  /** Of the printer. */
  readonly dpi: Dpi;
}

// Picture past the outline, so that no renderer fades its edge into it.
const marginMm = 0.5;
const leastMargin = 4;
// Past this a finger slipped.
const longestMm = 10_000;

/**
 * Lay a surface's dots under an outline.
 *
 * @param matched - The outline; it can be covered.
 * @param options - The paper.
 * @returns The dots, or why there are none, to follow its name.
 */
function layOutline(matched: MatchedOutline, options: LayOptions): LaidOutline | string {
  const { drawing, datum, dpi } = options;
  const { matrix, box } = matched.outline;
  if (box === 'unknown' || box === null) return 'has no bounds';
  const dot = mmPerInch / dpi;
  const lattice = layLattice(matrix, { datum, dot });
  const under = dotsUnder(lattice, matrix, box);
  const margin = Math.max(leastMargin, Math.ceil(marginMm / dot));
  const dots = {
    x0: Math.floor(under.x0) - margin,
    y0: Math.floor(under.y0) - margin,
    x1: Math.ceil(under.x1) + margin,
    y1: Math.ceil(under.y1) + margin,
  };
  const longest = Math.max(dots.x1 - dots.x0, dots.y1 - dots.y0);
  const farthest = Math.max(...Object.values(dots).map(Math.abs));
  if (longest * dot > longestMm || !(farthest < 2 ** 31)) return 'is over 10 m of paper long';
  const empty = whyEmpty(matched.outline, drawing, boxAround(cornersOf(matrix, box)));
  return empty ?? { ...matched, lattice, dots };
}

// Of what is given by its measures alone the bounds have told already.
const drawnByHand = ['path', 'polygon', 'polyline'];
// A curve's chords may be off by so much of the outline.
const coarseness = 1e-3;
const leastShare = 1e-6;

function whyEmpty(outline: Outline, drawing: Drawing, paper: Box): string | null {
  const { element, viewport, matrix, rule } = outline;
  const { name } = element;
  if (!drawnByHand.includes(name)) return null;
  const attributes = attributesOf(drawing, element);
  const size = Math.max(paper.x1 - paper.x0, paper.y1 - paper.y0);
  try {
    const loops = followShape({ name, attributes, matrix, viewport }, coarseness * size);
    // One line that goes round once cannot cancel itself.
    const isPlain = loops.length === 1 && (loops[0]?.length ?? 0) <= 8;
    if (isPlain || shareOfBox({ loops, rule }) > leastShare) return null;
    return loops.length === 0 ? 'has no area' : 'has no area, because its loops cancel one another';
  } catch (cause) {
    if (cause instanceof BadDrawing) return `cannot be read: it ${cause.message}`;
    // What is too jagged to tell is covered all the same: whoever shows the drawing clips it.
    if (cause instanceof TextureError) return null;
    throw cause;
  }
}

/** What outlines are to be covered with, and those that are left. */
export interface LaidOutlines {
  /** By photo: one that several keys name is one surface. */
  readonly wanted: ReadonlyMap<string, readonly LaidOutline[]>;
  /** Outlines that cannot be covered. */
  readonly left: readonly LeftOutline[];
  /** Keys that mean something which can be covered. */
  readonly laid: ReadonlySet<number>;
}

/**
 * Lay dots under all outlines that keys mean.
 *
 * @param matched - Those that they mean.
 * @param options - The paper, and what each key is covered with.
 * @returns What is covered with what.
 */
export function layOutlines(
  matched: readonly MatchedOutline[],
  options: LayOptions & { readonly paint: readonly { readonly surface: string }[] },
): LaidOutlines {
  const { paint } = options;
  const wanted = new Map<string, LaidOutline[]>(paint.map(({ surface }) => [surface, []]));
  const left: LeftOutline[] = [];
  const laid = new Set<number>();
  for (const one of matched) {
    const under = one.outline.left ?? layOutline(one, options);
    if (typeof under === 'string') {
      left.push({ matched: one, why: under });
      continue;
    }
    wanted.get(paint[one.key]?.surface ?? '')?.push(under);
    laid.add(one.key);
  }
  return { wanted, left, laid };
}

/** Of a picture. */
interface PixelSize {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** One picture for all outlines of a surface. */
export interface SurfacePlan {
  /** What of the surface it shows, in dots from the datum. */
  readonly picture: PerAxis<Stretch>;
  /** Where it is laid for each outline: from its pixels to millimetres of paper, each time. */
  readonly places: readonly (readonly Matrix[])[];
}

/**
 * Plan a picture for an outline alone, whose dots are like no others.
 *
 * @param laid - With its dots.
 * @returns Its dots, and where they go.
 */
export function planAlone(laid: LaidOutline): SurfacePlan {
  const { x0, y0, x1, y1 } = laid.dots;
  return {
    picture: { x: { start: x0, length: x1 - x0 }, y: { start: y0, length: y1 - y0 } },
    places: [[compose(laid.lattice.matrix, [1, 0, 0, 1, x0, y0])]],
  };
}

// Pictures that lie side by side overlap by so much, so that no edge of theirs is seen at any zoom.
const overlapMm = 1.5;
// And lie so far apart at least, or a gravel of a few millimetres would be laid a thousand times.
const stepMm = 50;
const mostStep = 2000;

/**
 * Plan one picture for all outlines of a surface.
 *
 * @param laid - One or more.
 * @param tile - How large what repeats is.
 * @param dpi - Of the printer.
 * @returns Which dots it shows, and where it goes.
 */
export function planSurface(laid: readonly LaidOutline[], tile: PixelSize, dpi: Dpi): SurfacePlan {
  const dot = mmPerInch / dpi;
  const overlap = Math.max(2 * leastMargin, Math.ceil(overlapMm / dot));
  const step = Math.min(mostStep, Math.ceil(stepMm / dot));
  const plan = (period: number, stretches: readonly Stretch[]): Cover =>
    planCover(stretches, { period, overlap, step });
  const x = plan(
    tile.width,
    laid.map(({ dots: { x0, x1 } }) => ({ start: x0, length: x1 - x0 })),
  );
  const y = plan(
    tile.height,
    laid.map(({ dots: { y0, y1 } }) => ({ start: y0, length: y1 - y0 })),
  );
  const places = laid.map(({ lattice }, i) =>
    (y.places[i] ?? []).flatMap((down) =>
      (x.places[i] ?? []).map((across) => compose(lattice.matrix, [1, 0, 0, 1, across, down])),
    ),
  );
  return { picture: { x: x.picture, y: y.picture }, places };
}
