import {
  type Atrule,
  type Block,
  type CssNode,
  generate,
  type Rule,
  type Selector,
} from 'css-tree';
import { attributeOf, attributesOf } from '../attributes-of.js';
import type { Drawing } from '../drawing.js';
import { type Declarations, isPlacing } from './declarations.js';
import { declaredIn, parseCss } from './parse-css.js';

/** A selector of names, classes and ids alone. */
export interface PlainSelector {
  /** Of the element, or null for any. */
  readonly name: string | null;
  /** All of which it must have. */
  readonly ids: readonly string[];
  /** All of which it must have. */
  readonly classes: readonly string[];
}

/** One rule that places elements. */
interface PlacingRule {
  /** Of which elements. */
  readonly selector: PlainSelector;
  /** What it sets. */
  readonly declarations: Declarations;
}

/** What the style sheets of a drawing mean for where things show. */
export interface Sheets {
  /** Least specific first, and in the order in which they stand. */
  readonly rules: readonly PlacingRule[];
  /** Why that cannot be told, or null. */
  readonly doubt: string | null;
  /** Whether elements may be renamed and added without a rule beginning or ceasing to hold. */
  readonly steady: boolean;
}

// What is written where a picture stood.
const renamed = new Set(['image', 'use', 'g', 'defs', 'clipPath', 'rect']);

const mostCharacters = 2_000_000;

/**
 * Tell from style sheets what they mean for where things show.
 *
 * @param drawing - Whose `style` elements they are.
 * @param isWanted - Properties that matter, by name: those that place an element unless told.
 * @param lacked - A property that whoever asks does not have: rules for those who have it do not hold.
 * @returns What they mean.
 * @see CSS Conditional Rules Module Level 3, 6: feature queries
 */
export function readSheets(
  drawing: Drawing,
  isWanted: (name: string) => boolean = isPlacing,
  lacked: string | null = null,
): Sheets {
  const gathered = new Gathered(isWanted, lacked);
  if (drawing.instructions.includes('xml-stylesheet')) {
    gathered.doubt = 'a style sheet outside the drawing';
  }
  for (const [index, text] of drawing.sheets) {
    const element = drawing.elements[index];
    if (element === undefined) continue;
    const attributes = attributesOf(drawing, element);
    const type = attributeOf(attributes, 'type')?.value.trim().toLowerCase() ?? '';
    if (type !== '' && type !== 'text/css') continue;
    const media = attributeOf(attributes, 'media')?.value.trim() ?? '';
    gathered.addSheet(text, /^(all)?$/i.test(media));
  }
  return gathered.finish();
}

class Gathered {
  doubt: string | null = null;
  #steady = true;
  readonly #isWanted: (name: string) => boolean;
  readonly #lacked: string | null;
  readonly #rules: (PlacingRule & { readonly weight: number })[] = [];

  constructor(isWanted: (name: string) => boolean, lacked: string | null) {
    this.#isWanted = isWanted;
    this.#lacked = lacked;
  }

  addSheet(text: string, always: boolean): void {
    const sheet = text.length > mostCharacters ? null : parseCss(text, 'stylesheet');
    if (sheet?.type !== 'StyleSheet') {
      this.doubt ??= 'a style sheet too large to read';
      return;
    }
    sheet.children.forEach((node) => {
      this.#addNode(node, always);
    });
  }

  finish(): Sheets {
    const rules = this.#rules.toSorted((a, b) => a.weight - b.weight);
    return { rules, doubt: this.doubt, steady: this.#steady && this.doubt === null };
  }

  #addNode(node: CssNode, always: boolean): void {
    if (node.type === 'Rule') this.#addRule(node, always);
    if (node.type !== 'Atrule') return;
    if (node.name.toLowerCase() === 'import') this.doubt ??= 'a style sheet outside the drawing';
    if (node.name.toLowerCase() === 'font-face') return;
    // Of a medium, or moving: whether it holds cannot be told.
    this.#steady = false;
    if (this.#lacked !== null && asksFor(node, this.#lacked)) return;
    if (node.block !== null && this.#hasWanted(node.block)) {
      this.doubt ??= `a style sheet's @${node.name} rule`;
    }
  }

  #addRule({ prelude, block }: Rule, always: boolean): void {
    const declarations = declaredIn(block, this.#isWanted);
    const nested = block.children.some(isNested);
    if (prelude.type !== 'SelectorList' || nested) {
      this.#steady = false;
      if (this.#hasWanted(block)) this.doubt ??= 'a style sheet that is not understood';
      return;
    }
    prelude.children.forEach((one) => {
      const selector = one.type === 'Selector' && always ? toPlain(one) : null;
      const { name = null } = selector ?? {};
      if (selector === null || isLoose(selector)) this.#steady = false;
      if (declarations.size === 0) return;
      if (selector === null) {
        this.doubt ??= 'a style sheet that is not understood';
        return;
      }
      const { ids, classes } = selector;
      const weight = ids.length * 1e6 + classes.length * 1e3 + (name === null ? 0 : 1);
      this.#rules.push({ selector, declarations, weight });
    });
  }

  #hasWanted(block: Block): boolean {
    if (declaredIn(block, this.#isWanted).size > 0) return true;
    return block.children.some((node) => {
      if (isNested(node) && node.type === 'Raw') return true;
      if (node.type === 'Rule') return this.#hasWanted(node.block);
      return node.type === 'Atrule' && node.block !== null && this.#hasWanted(node.block);
    });
  }
}

// For one property and one value of it, and no more than that.
function asksFor({ name, prelude }: Atrule, property: string): boolean {
  if (name.toLowerCase() !== 'supports' || prelude === null) return false;
  const [, asked] = /^\(\s*([\w-]+)\s*:[\s\w-]+\)$/.exec(generate(prelude).trim()) ?? [];
  return asked?.toLowerCase() === property;
}

// By a name that an element may lose, or by none at all.
function isLoose({ name, ids, classes }: PlainSelector): boolean {
  return name === null ? ids.length + classes.length === 0 : renamed.has(name);
}

// Rules inside a rule; the parser gives up on most of them.
function isNested(node: CssNode): boolean {
  if (node.type === 'Raw') return node.value.includes('{');
  return node.type === 'Rule' || node.type === 'Atrule';
}

function toPlain(selector: Selector): PlainSelector | null {
  let name: string | null = null;
  const ids: string[] = [];
  const classes: string[] = [];
  for (const part of selector.children.toArray()) {
    if (part.type === 'TypeSelector' && !part.name.includes('|')) {
      name = part.name === '*' ? null : part.name;
    } else if (part.type === 'IdSelector') ids.push(part.name);
    else if (part.type === 'ClassSelector') classes.push(part.name);
    else return null;
  }
  return { name, ids, classes };
}
