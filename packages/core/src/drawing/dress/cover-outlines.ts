import { attributeOf, attributesOf, targetOf } from '../attributes-of.js';
import { type Drawing, type DrawingElement, isSvg, namespaces } from '../drawing.js';
import { type Edit, editText } from '../edit-text.js';
import { removal, svgPrefixAt } from '../markup.js';
import type { Chain } from '../places/walk-drawing.js';
import { type Dressing, coverOutline } from './cover-outline.js';
import { keptLink, mark, ours } from './mark.js';

// What shows through one `use` after another: at the root, what shows where it stands.
interface Instance {
  readonly dressings: Dressing[];
  // By the index of the `use`.
  readonly inner: Map<number, Instance>;
}

/** Edits, or why there are none. */
export type CoveredOutlines =
  | {
      /** To be made. */
      readonly edits: readonly Edit[];
    }
  | {
      /** To follow the drawing's name. */
      readonly fault: string;
    };

// Characters of copies in all.
const mostCopied = 5_000_000;
// Uses of what itself uses another, one in another: nobody draws so many.
const mostDepth = 50;

/**
 * Cover outlines where they stand. What shows through a `use` is covered in a copy of what is used, one for
 * each place, for each lies elsewhere on the wall; the `use` then leads to its copy, and what stood
 * there stays.
 *
 * @param drawing - As read.
 * @param dressings - Each outline at each of its places at most once.
 * @param freshId - Gives ids that are free.
 * @returns The edits.
 */
export function coverOutlines(
  drawing: Drawing,
  dressings: readonly Dressing[],
  freshId: (stem: string) => string,
): CoveredOutlines {
  const root: Instance = { dressings: [], inner: new Map() };
  // Of two that are put in at one place, the one that is drawn first goes first.
  const inOrder = dressings.toSorted((a, b) => indexOf(a) - indexOf(b));
  for (const one of inOrder) instanceOf(root, one.outline.chain).dressings.push(one);
  const writer = new Writer(drawing, root, freshId);
  const edits = writer.edit();
  return writer.fault === null ? { edits } : { fault: writer.fault };
}

function indexOf({ outline }: Dressing): number {
  return outline.element.index;
}

function instanceOf(root: Instance, chain: Chain | null): Instance {
  const users: DrawingElement[] = [];
  for (let at = chain; at !== null; at = at.outer) users.unshift(at.user);
  let instance = root;
  for (const { index } of users) {
    let inner = instance.inner.get(index);
    if (inner === undefined) {
      inner = { dressings: [], inner: new Map() };
      instance.inner.set(index, inner);
    }
    instance = inner;
  }
  return instance;
}

class Writer {
  fault: string | null = null;
  readonly #drawing: Drawing;
  readonly #root: Instance;
  readonly #freshId: (stem: string) => string;
  // What stands behind each target, by its index.
  readonly #copies = new Map<number, string[]>();
  readonly #plain = new Map<number, string>();
  // Elements that change where they stand, in their order.
  readonly #touched: readonly DrawingElement[];
  readonly #uses: readonly DrawingElement[];
  #copied = 0;
  #depth = 0;

  constructor(drawing: Drawing, root: Instance, freshId: (stem: string) => string) {
    this.#drawing = drawing;
    this.#root = root;
    this.#freshId = freshId;
    const changed = new Set(root.inner.keys());
    for (const { outline } of root.dressings) changed.add(outline.element.index);
    this.#touched = drawing.elements.filter(({ index }) => changed.has(index));
    this.#uses = drawing.elements.filter((element) => isSvg(element, 'use'));
  }

  edit(): Edit[] {
    const edits = this.#inside(this.#drawing.root, this.#root);
    for (const [index, copies] of this.#copies) {
      const target = this.#drawing.elements[index];
      if (target === undefined) continue;
      const prefix = prefixOf(target);
      const text = `<${prefix}defs ${mark}="${ours.copies}">${copies.join('')}</${prefix}defs>`;
      edits.push({ start: target.end, end: target.end, text });
    }
    return edits;
  }

  // Everything that changes inside an element, itself included, at one of its places.
  #inside(element: DrawingElement, instance: Instance): Edit[] {
    const edits = instance.dressings.flatMap((dressing) =>
      coverOutline(this.#drawing, dressing, this.#freshId('gaugerod-clip')),
    );
    for (const use of this.#usesIn(element)) {
      const target = targetOf(this.#drawing, attributesOf(this.#drawing, use));
      if (target === undefined) continue;
      const inner = instance.inner.get(use.index);
      const copy = inner === undefined ? this.#plainCopy(use, target) : this.#copy(target, inner);
      if (copy !== null) edits.push(...this.#lead(use, copy));
    }
    return edits;
  }

  #usesIn({ index, last }: DrawingElement): readonly DrawingElement[] {
    const from = firstFrom(this.#uses, index);
    return this.#uses.slice(from, firstFrom(this.#uses, last + 1));
  }

  // Of what is changed where it stands, as it was: for whoever shows it without.
  #plainCopy(use: DrawingElement, target: DrawingElement): string | null {
    if (!this.#isTouched(target) || isAround(target, use) || clips(use)) return null;
    const known = this.#plain.get(target.index);
    if (known !== undefined) return known;
    const id = this.#freshId('gaugerod-copy');
    this.#plain.set(target.index, id);
    this.#keep(target, id, { dressings: [], inner: new Map() });
    return id;
  }

  #isTouched({ index, last }: DrawingElement): boolean {
    return firstFrom(this.#touched, index) < firstFrom(this.#touched, last + 1);
  }

  #copy(target: DrawingElement, instance: Instance): string {
    const id = this.#freshId('gaugerod-copy');
    this.#keep(target, id, instance);
    return id;
  }

  #keep(target: DrawingElement, id: string, instance: Instance): void {
    this.#copied += target.end - target.start;
    this.#depth++;
    if (this.#copied > mostCopied || this.#depth > mostDepth) {
      this.fault = 'uses what is to be covered too often, one in another';
      return;
    }
    const isShape = instance.dressings.some(({ outline }) => outline.element === target);
    const edits = [
      ...this.#inside(target, instance),
      ...this.#renamed(target, isShape ? null : id),
    ];
    this.#depth--;
    const within = edits.map((edit) => ({
      ...edit,
      start: edit.start - target.start,
      end: edit.end - target.start,
    }));
    const copy = editText(this.#drawing.text.slice(target.start, target.end), within).join('');
    const prefix = prefixOf(target);
    const text = isShape ? `<${prefix}g id="${id}">${copy}</${prefix}g>` : copy;
    const known = this.#copies.get(target.index) ?? [];
    this.#copies.set(target.index, [...known, text]);
  }

  // An id stands for one element only.
  #renamed(target: DrawingElement, id: string | null): Edit[] {
    const edits: Edit[] = [];
    for (let at = target.index; at <= target.last; at++) {
      const element = this.#drawing.elements[at];
      if (element?.id === null || element === undefined) continue;
      const attribute = attributeOf(attributesOf(this.#drawing, element), 'id');
      if (attribute === undefined) continue;
      if (element !== target || id === null) edits.push(removal(this.#drawing, attribute));
      else edits.push({ start: attribute.valueStart, end: attribute.valueEnd, text: id });
    }
    return edits;
  }

  #lead(use: DrawingElement, copy: string): Edit[] {
    const links = attributesOf(this.#drawing, use).filter(
      ({ name, namespace }) =>
        name === 'href' && (namespace === null || namespace === namespaces.xlink),
    );
    const last = links.at(-1);
    if (last === undefined) return [];
    // Quotes around it may have been of the other kind.
    const kept = links.map(({ raw }) => raw.replaceAll('"', '&quot;')).join(' ');
    return [
      ...links.map(({ valueStart, valueEnd }) => ({
        start: valueStart,
        end: valueEnd,
        text: `#${copy}`,
      })),
      { start: last.end, end: last.end, text: ` ${keptLink}="${kept}"` },
    ];
  }
}

// Of elements in their order, the place of the first from an index on.
function firstFrom(elements: readonly DrawingElement[], index: number): number {
  let [low, high] = [0, elements.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((elements[middle]?.index ?? Infinity) < index) low = middle + 1;
    else high = middle;
  }
  return low;
}

function isAround(target: DrawingElement, use: DrawingElement): boolean {
  return target.index <= use.index && use.index <= target.last;
}

// Beside an element, where what it declares itself does not hold.
function prefixOf(element: DrawingElement): string {
  return svgPrefixAt((element.parent ?? element).scope);
}

// What is filled with does not matter where only the shape counts.
function clips(use: DrawingElement): boolean {
  for (let at = use.parent; at !== null; at = at.parent) if (isSvg(at, 'clipPath')) return true;
  return false;
}
