import { BadDrawing } from '../bad-drawing.js';
import { applyTo, type Matrix, type Spot } from '../../numeric/matrix.js';
import type { EllipseArc, Pen } from './pen.js';

// In all loops of a drawing: hand-drawn shapes come to a few thousand.
const mostPoints = 500_000;
// Millimetres from the page's corner: past these a number slipped.
const farthest = 100_000;

/** A line of straight pieces. */
export interface FollowedLine {
  /** Points x, y, x, y… in mm. */
  readonly points: Float64Array;
  /** Whether it is drawn back to where it began. */
  readonly isClosed: boolean;
}

/** Makes closed lines of straight pieces of what a shape says, in mm of paper. */
export class LoopMaker implements Pen {
  /** Closed so far: x, y, x, y…. */
  readonly loops: Float64Array[] = [];
  /** What was drawn so far, whether or not it was closed: lines of two points or more. */
  readonly lines: FollowedLine[] = [];
  readonly #matrix: Matrix;
  readonly #tolerance: number;
  #points: number[] = [];
  #count = 0;

  /**
   * Begin.
   *
   * @param matrix - From the shape's own units to mm.
   * @param tolerance - How far a straight piece may be from the curve, mm, above 0.
   */
  constructor(matrix: Matrix, tolerance: number) {
    this.#matrix = matrix;
    this.#tolerance = tolerance;
  }

  /**
   * Close the loop at hand, which counts where it has an area, and begin another.
   *
   * @param spot - Where, in the shape's units.
   */
  moveTo(spot: Spot): void {
    this.end();
    this.lineTo(spot);
  }

  /**
   * Go straight on.
   *
   * @param spot - Where to, in the shape's units.
   */
  lineTo(spot: Spot): void {
    this.#add(applyTo(this.#matrix, spot));
  }

  /**
   * Follow a Bézier curve of two or three degrees.
   *
   * @param given - Its points from the first, which is where the line is, to the last.
   */
  curveTo(given: readonly Spot[]): void {
    const points = given.map((spot) => applyTo(this.#matrix, spot));
    const degree = points.length - 1;
    // The curve bends by no more than its points do; a chord of it is off by an eighth of that.
    const bends = points
      .slice(2)
      .map((c, i) =>
        Math.hypot(
          c.x - 2 * points[i + 1]!.x + points[i]!.x,
          c.y - 2 * points[i + 1]!.y + points[i]!.y,
        ),
      );
    const bend = degree * (degree - 1) * Math.max(...bends);
    const pieces = this.#pieces(Math.sqrt(bend / (8 * this.#tolerance)));
    for (let i = 1; i <= pieces; i++) this.#add(alongCurve(points, i / pieces));
  }

  /**
   * Follow an ellipse.
   *
   * @param arc - Which piece of it.
   */
  arcTo(arc: EllipseArc): void {
    const { centre, across, down, from, by } = arc;
    const [a, b, c, d] = this.#matrix;
    const middle = applyTo(this.#matrix, centre);
    const u = { x: a * across.x + c * across.y, y: b * across.x + d * across.y };
    const v = { x: a * down.x + c * down.y, y: b * down.x + d * down.y };
    const radius = Math.hypot(u.x, u.y, v.x, v.y);
    const pieces = this.#pieces(Math.abs(by) * Math.sqrt(radius / (8 * this.#tolerance)));
    for (let i = 0; i <= pieces; i++) {
      const angle = from + (by * i) / pieces;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      this.#add({ x: middle.x + cos * u.x + sin * v.x, y: middle.y + cos * u.y + sin * v.y });
    }
  }

  /** Close the loop at hand; one without an area bounds nothing and is left out. */
  close(): void {
    this.#finish(true);
  }

  /** Close it as well, for what is filled is closed; as a line it stays open. */
  end(): void {
    this.#finish(false);
  }

  #finish(isClosed: boolean): void {
    const points = Float64Array.from(this.#points);
    this.#points = [];
    if (points.length > 2) this.lines.push({ points, isClosed });
    if (boundsArea(points)) this.loops.push(points);
  }

  #pieces(wanted: number): number {
    if (!(wanted < mostPoints)) throw tooMany();
    return Math.max(1, Math.ceil(wanted));
  }

  #add({ x, y }: Spot): void {
    if (!(Math.abs(x) <= farthest && Math.abs(y) <= farthest)) {
      throw new BadDrawing('holds a shape that reaches over 100 m from its page');
    }
    if (++this.#count > mostPoints) throw tooMany();
    this.#points.push(x, y);
  }
}

function tooMany(): BadDrawing {
  return new BadDrawing('holds a shape of too many points to follow');
}

// By de Casteljau's way, which is steady for every degree.
function alongCurve(points: readonly Spot[], t: number): Spot {
  let left = points;
  while (left.length > 1) {
    left = left.slice(1).map(({ x, y }, i) => {
      const before = left[i]!;
      return { x: before.x + t * (x - before.x), y: before.y + t * (y - before.y) };
    });
  }
  return left[0]!;
}

// Whether its points do not all lie on one line.
function boundsArea(loop: Float64Array): boolean {
  const [x0 = 0, y0 = 0] = loop;
  let [farX, farY, far] = [0, 0, 0];
  for (let i = 2; i < loop.length; i += 2) {
    const [x, y] = [loop[i]! - x0, loop[i + 1]! - y0];
    if (Math.hypot(x, y) > far) [farX, farY, far] = [x, y, Math.hypot(x, y)];
  }
  for (let i = 2; i < loop.length; i += 2) {
    const aside = Math.abs((loop[i]! - x0) * farY - (loop[i + 1]! - y0) * farX);
    if (aside > 1e-9 * far * far) return true;
  }
  return false;
}
