import type { PathStep } from '../../page/drawn.js';
import type { Spot } from '../../numeric/matrix.js';
import type { EllipseArc, Pen } from './pen.js';

// Of a turn that one curve stands for: it is off by 4 millionths of the radius.
const longest = Math.PI / 4;

/** Writes a shape's edge down as lines and Bézier curves, in the shape's own units. */
export class PathPen implements Pen {
  /** So far. */
  readonly steps: PathStep[] = [];
  #isDown = false;

  /**
   * Begin another line.
   *
   * @param spot - Where.
   */
  moveTo(spot: Spot): void {
    const { x, y } = spot;
    this.steps.push(['M', x, y]);
    this.#isDown = true;
  }

  /**
   * Go straight on; the first of all begins.
   *
   * @param spot - Where to.
   */
  lineTo(spot: Spot): void {
    if (!this.#isDown) this.moveTo(spot);
    else if (!this.#isThere(spot)) this.steps.push(['L', spot.x, spot.y]);
  }

  // Arcs end but for the last digits where they should, and a corner on the way there would stick out.
  #isThere({ x, y }: Spot): boolean {
    const last = this.steps.at(-1);
    if (last?.[0] !== 'C') return false;
    const near = 1e-9 * (Math.abs(x) + Math.abs(y) + 1);
    return Math.abs(last[5] - x) < near && Math.abs(last[6] - y) < near;
  }

  /**
   * Follow a Bézier curve; one of two degrees is raised to three, which is exact.
   *
   * @param given - Its points.
   */
  curveTo(given: readonly Spot[]): void {
    const [from, one, two, three] = given;
    if (from === undefined || one === undefined || two === undefined) return;
    if (three !== undefined) {
      this.steps.push(['C', one.x, one.y, two.x, two.y, three.x, three.y]);
      return;
    }
    const between = (end: Spot): readonly [number, number] => [
      end.x + (2 / 3) * (one.x - end.x),
      end.y + (2 / 3) * (one.y - end.y),
    ];
    this.steps.push(['C', ...between(from), ...between(two), two.x, two.y]);
  }

  /**
   * Follow an ellipse.
   *
   * @param arc - Which piece of it.
   */
  arcTo(arc: EllipseArc): void {
    const { centre, across, down, from, by } = arc;
    const at = (cos: number, sin: number): readonly [number, number] => [
      centre.x + cos * across.x + sin * down.x,
      centre.y + cos * across.y + sin * down.y,
    ];
    const count = Math.max(1, Math.ceil(Math.abs(by) / longest));
    const turn = by / count;
    const reach = (4 / 3) * Math.tan(turn / 4);
    const [x, y] = at(Math.cos(from), Math.sin(from));
    this.lineTo({ x, y });
    for (let i = 0; i < count; i++) {
      const [a, b] = [from + i * turn, from + (i + 1) * turn];
      const [cosA, sinA, cosB, sinB] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
      const first = at(cosA - reach * sinA, sinA + reach * cosA);
      const second = at(cosB + reach * sinB, sinB - reach * cosB);
      this.steps.push(['C', ...first, ...second, ...at(cosB, sinB)]);
    }
  }

  /** Go back to where the line began. */
  close(): void {
    if (this.#isDown) this.steps.push(['Z']);
    this.#isDown = false;
  }

  /** Leave the line as it is. */
  end(): void {
    this.#isDown = false;
  }
}
