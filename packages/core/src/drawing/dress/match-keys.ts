import { attributeOf, attributesOf } from '../attributes-of.js';
import type { Drawing, DrawingElement } from '../drawing.js';
import type { Outline } from './find-outlines.js';
import type { PaintKey } from './paint-key.js';

/** An outline that a key means. */
export interface MatchedOutline {
  /** The outline. */
  readonly outline: Outline;
  /** Of the keys, which, from 0. */
  readonly key: number;
  /** Whether it is meant by an id or class of its own. */
  readonly isOwn: boolean;
}

/** What keys mean in a drawing. */
export interface MatchedKeys {
  /** Outlines that a key means, each once, in their order. */
  readonly matched: readonly MatchedOutline[];
  /** Keys that may be a colour or an id here, and are both. */
  readonly ambiguous: readonly PaintKey[];
}

/**
 * Find which outlines keys mean. Where several mean one, what is said of the outline itself goes first,
 * by id, by class, by its fill; then what is said of what is around it, from the inside. A group stands
 * for what is filled in it.
 *
 * @param drawing - Read.
 * @param outlines - Of it.
 * @param keys - What the user wrote.
 * @returns Who is meant.
 */
export function matchKeys(
  drawing: Drawing,
  outlines: readonly Outline[],
  keys: readonly PaintKey[],
): MatchedKeys {
  const colours = new Set(outlines.map(({ fill }) => fill));
  const ambiguous = keys.filter(
    ({ id, colour }) =>
      id !== null && colour !== null && colours.has(colour) && drawing.byId.has(id),
  );
  const names = new Names(drawing, keys);
  const matched = outlines.flatMap((outline): MatchedOutline[] => {
    const [own, ...around] = outline.holders;
    const isFilled = outline.fill !== 'none';
    const direct = own === undefined ? undefined : names.keyOf(own);
    if (direct !== undefined) return [{ outline, key: direct, isOwn: true }];
    if (!isFilled) return [];
    const coloured = keys.findIndex(({ colour }) => colour === outline.fill);
    const key = coloured === -1 ? firstOf(around, (holder) => names.keyOf(holder)) : coloured;
    return key === undefined ? [] : [{ outline, key, isOwn: false }];
  });
  return { matched, ambiguous };
}

function firstOf<Value>(
  elements: readonly DrawingElement[],
  find: (element: DrawingElement) => Value | undefined,
): Value | undefined {
  for (const element of elements) {
    const found = find(element);
    if (found !== undefined) return found;
  }
  return undefined;
}

class Names {
  readonly #drawing: Drawing;
  readonly #keys: readonly PaintKey[];
  readonly #known = new Map<number, number | undefined>();

  constructor(drawing: Drawing, keys: readonly PaintKey[]) {
    this.#drawing = drawing;
    this.#keys = keys;
  }

  keyOf(element: DrawingElement): number | undefined {
    const { index } = element;
    if (!this.#known.has(index)) this.#known.set(index, this.#find(element));
    return this.#known.get(index);
  }

  #find(element: DrawingElement): number | undefined {
    const byId = this.#keys.findIndex(({ id }) => id !== null && id === element.id);
    if (byId !== -1) return byId;
    const classes = classesOf(this.#drawing, element);
    const byClass = this.#keys.findIndex(
      ({ className }) => className !== null && classes.includes(className),
    );
    return byClass === -1 ? undefined : byClass;
  }
}

/**
 * The classes of an element.
 *
 * @param drawing - Which it is of.
 * @param element - Of it.
 * @returns Them, in their order.
 */
export function classesOf(drawing: Drawing, element: DrawingElement): readonly string[] {
  const text = attributeOf(attributesOf(drawing, element), 'class')?.value.trim() ?? '';
  return text === '' ? [] : text.split(/\s+/);
}
