import type { DrawnArea } from '../../page/drawn.js';
import { BadDrawing } from '../bad-drawing.js';
import type { Styled } from '../places/around.js';
import type { ShapeToFollow } from '../outline/follow-shape.js';
import { stepsOf } from './trace.js';

// A page spells out each step at each place at which it shows, in 20 to 50 bytes.
const mostSteps = 4_000_000;
const tooMany = `shows more than pages hold: over ${mostSteps} steps along its paths, each counted as often as it is used`;

interface Traced {
  readonly viewport: ShapeToFollow['viewport'];
  readonly steps: DrawnArea['steps'];
}

/** Traces shapes, each once, however often it is used. */
export class Tracer {
  readonly #known = new Map<number, Traced>();
  #left = mostSteps;

  /**
   * Trace a shape's edge, or find it traced.
   *
   * @param shape - What has the edge.
   * @param viewport - What shares of its measures are shares of.
   * @returns Step by step; none where there is nothing.
   * @throws BadDrawing where it makes no sense, or all together is more than pages hold.
   */
  trace(shape: Styled, viewport: ShapeToFollow['viewport']): DrawnArea['steps'] {
    const { element, attributes } = shape;
    const known = this.#known.get(element.index);
    const isSame =
      known !== undefined &&
      Object.is(known.viewport.width, viewport.width) &&
      Object.is(known.viewport.height, viewport.height);
    const steps = isSame ? known.steps : stepsOf(element.name, { attributes, viewport });
    if (!isSame) this.#known.set(element.index, { viewport, steps });
    this.count([{ steps }]);
    return steps;
  }

  /**
   * Count what is drawn once more.
   *
   * @param areas - All of it.
   * @throws BadDrawing where all together is more than pages hold.
   */
  count(areas: readonly Pick<DrawnArea, 'steps'>[]): void {
    for (const { steps } of areas) this.#left -= steps.length;
    if (this.#left < 0) throw new BadDrawing(tooMany);
  }
}
