import { attributeOf, targetOf } from '../attributes-of.js';
import { childrenOf, type DrawingAttribute, type DrawingElement, isSvg } from '../drawing.js';
import { compose } from '../../numeric/matrix.js';
import { toUnits } from '../geometry/parse-length.js';
import { type Around, enter, type Scene, type Styled, styledIn } from './around.js';
import { enterViewport } from './enter-viewport.js';
import { leadsTo } from './leads-to.js';

// Elements looked at beyond those that there are, through `use` of `use` as often as they show.
const mostSteps = 50_000;

// What shows its children where it stands.
const groups = new Set(['g', 'a', 'switch', 'svg']);

/** The uses that brought an element in, innermost first. */
export interface Chain {
  /** The `use`. */
  readonly user: DrawingElement;
  /** What it uses. */
  readonly target: DrawingElement;
  /** The one around it, or null. */
  readonly outer: Chain | null;
}

/** One place at which an element shows. */
export interface Visit<Own> {
  /** The element. */
  readonly styled: Styled;
  /** What holds on it, its own transform and clip included. */
  readonly around: Around;
  /** What holds right outside it. */
  readonly outside: Around;
  /** What the walker carries, as of the element. */
  readonly own: Own;
  /** Through which uses, or null. */
  readonly chain: Chain | null;
}

/** What a walk looks for, and what it carries. */
export interface Walker<Own> {
  /** Of the elements looked for. */
  readonly names: readonly string[];
  /** What holds right inside the root. */
  readonly around: Around;
  /** What is carried right inside the root. */
  readonly own: Own;
  /**
   * Carry on into an element.
   *
   * @param styled - It.
   * @param own - As carried outside it.
   * @param around - What holds inside it.
   * @returns As carried inside; undefined where nothing in it shows.
   */
  readonly enter: (styled: Styled, own: Own, around: Around) => Own | undefined;
  /**
   * Look at one of those that are looked for.
   *
   * @param visit - It, at one of its places.
   */
  readonly take: (visit: Visit<Own>) => void;
}

interface Step<Own> {
  readonly element: DrawingElement;
  readonly around: Around;
  readonly own: Own;
  // Of the `use` that brought it in.
  readonly user: readonly DrawingAttribute[] | null;
  readonly chain: Chain | null;
}

/**
 * Walk all that shows of a drawing, at each place at which it shows: groups, viewports, and uses of
 * what stands elsewhere.
 *
 * @param scene - What is walked.
 * @param walker - Told of all that it looks for, in the order in which it is drawn.
 * @returns Whether all of it was walked: not where elements use one another more often than anybody
 * draws.
 */
export function walkDrawing<Own>(scene: Scene, walker: Walker<Own>): boolean {
  const walk = new Walk(scene, walker);
  return walk.run();
}

class Walk<Own> {
  readonly #scene: Scene;
  readonly #walker: Walker<Own>;
  readonly #leads: ReadonlySet<number>;
  readonly #waiting: Step<Own>[] = [];

  constructor(scene: Scene, walker: Walker<Own>) {
    this.#scene = scene;
    this.#walker = walker;
    this.#leads = leadsTo(scene.drawing, walker.names);
  }

  // No recursion: how deep `use` leads is for the file to say.
  run(): boolean {
    const { root, elements } = this.#scene.drawing;
    const { around, own } = this.#walker;
    this.#pushChildren(root, { around, own, chain: null });
    let left = elements.length + mostSteps;
    for (let step = this.#waiting.pop(); step !== undefined; step = this.#waiting.pop()) {
      if (left-- === 0) return false;
      this.#take(step);
    }
    return true;
  }

  #take(step: Step<Own>): void {
    const { element, around: outside, user, chain } = step;
    if (!isSvg(element, element.name)) return;
    const styled = styledIn(this.#scene, element);
    const around = enter(this.#scene, outside, styled);
    const own = this.#walker.enter(styled, step.own, around);
    if (own === undefined) return;
    if (this.#walker.names.includes(element.name)) {
      this.#walker.take({ styled, around, outside, own, chain });
    } else if (element.name === 'use') this.#follow(styled, { around, own, chain });
    else if (element.name === 'svg' || (element.name === 'symbol' && user !== null)) {
      const inside = enterViewport(around, styled, user);
      if (inside !== null) this.#pushChildren(element, { around: inside, own, chain });
    } else if (groups.has(element.name)) this.#pushChildren(element, { around, own, chain });
  }

  // Last first, for the last that waits is the next to be taken.
  #pushChildren(
    element: DrawingElement,
    inside: Pick<Step<Own>, 'around' | 'own' | 'chain'>,
  ): void {
    const children = [...childrenOf(this.#scene.drawing, element)];
    for (const child of children.toReversed()) {
      if (!this.#leads.has(child.index)) continue;
      this.#waiting.push({ element: child, user: null, ...inside });
    }
  }

  #follow(
    { element, attributes }: Styled,
    { around, own, chain: outer }: Pick<Step<Own>, 'around' | 'own' | 'chain'>,
  ): void {
    const target = targetOf(this.#scene.drawing, attributes);
    if (target === undefined || !this.#leads.has(target.index)) return;
    if (leadsRound(element, target, outer)) return;
    const { viewport } = around;
    const x = toUnits(attributeOf(attributes, 'x')?.value, viewport.width, 0);
    const y = toUnits(attributeOf(attributes, 'y')?.value, viewport.height, 0);
    this.#waiting.push({
      element: target,
      around: {
        ...around,
        matrix: compose(around.matrix, [1, 0, 0, 1, x ?? 0, y ?? 0]),
        doubt:
          around.doubt ?? (x === null || y === null ? 'a place in units that have no size' : null),
      },
      own,
      user: attributes,
      chain: { user: element, target, outer },
    });
  }
}

// What uses what it stands in shows nothing.
function leadsRound(user: DrawingElement, target: DrawingElement, chain: Chain | null): boolean {
  for (let at = user.parent; at !== null; at = at.parent) if (at === target) return true;
  for (let at = chain; at !== null; at = at.outer) if (at.target === target) return true;
  return false;
}
