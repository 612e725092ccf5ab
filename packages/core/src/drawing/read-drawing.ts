import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { type Limits, limitsFor } from '../limits/limits.js';
import { liftedBy } from '../limits/over-limit.js';
import { BadDrawing } from './bad-drawing.js';
import {
  type Drawing,
  type DrawingElement,
  namespaceOf,
  namespaces,
  type Scope,
} from './drawing.js';

const pieceLength = 65_536;

type Building = { -readonly [Key in keyof DrawingElement]: DrawingElement[Key] };

const outermost: Scope = { outer: null, own: new Map() };

/**
 * Read a drawing: well-formed XML whose root is SVG's, with nothing declared in a DTD of its own.
 * Entities are never expanded but for XML's five, and nothing is fetched.
 *
 * @param text - All of it, without a byte-order mark.
 * @param limits - How many elements it may hold, and how deep in one another; the usual, unless told.
 * @returns Its elements, in document order, with their places in the text.
 * @throws BadDrawing when it is not well-formed, no drawing, or asks for too much.
 * @see XML 1.0, fifth edition; Namespaces in XML 1.0, third edition
 */
export function readDrawing(
  text: string,
  limits: Pick<Limits, 'elements' | 'depth'> = limitsFor('drawing', {}),
): Drawing {
  const reader = new Reader(text, limits);
  const parser = new SaxesParser({ xmlns: false });
  reader.listen(parser);
  const skipped: TextPiece[] = [];
  try {
    let last = 0;
    for (const { start, end } of piecesOf(text)) {
      skipped.push({ start: last, end: start });
      reader.skip(start - last);
      last = end;
      for (let at = start; at < end; at += pieceLength) {
        parser.write(text.slice(at, Math.min(end, at + pieceLength)));
      }
    }
    parser.close();
  } catch (cause) {
    if (cause instanceof BadDrawing) throw cause;
    const lines = skipped.map(({ start, end }) => breaksIn(text.slice(start, end)));
    const unseen = lines.reduce((sum, count) => sum + count, 0);
    throw new BadDrawing(`is not well-formed: ${wordsOf(cause, unseen)}`, { cause });
  }
  return reader.finish();
}

interface TextPiece {
  readonly start: number;
  readonly end: number;
}

// Of what stands in base64 the parser is given the beginning alone: its characters and blanks mean
// nothing to XML wherever they stand, and they are nearly all of a large drawing.
function* piecesOf(text: string): Generator<TextPiece> {
  const mark = ';base64,';
  const other = /[^A-Za-z0-9+/= \t\r\n]/g;
  let start = 0;
  for (let at = text.indexOf(mark); at !== -1; at = text.indexOf(mark, at)) {
    at += mark.length;
    other.lastIndex = at;
    const end = other.exec(text)?.index ?? text.length;
    if (end - at < pieceLength) continue;
    yield { start, end: at };
    start = end;
    at = end;
  }
  yield { start, end: text.length };
}

function breaksIn(text: string): number {
  return text.match(/\r\n?|\n/g)?.length ?? 0;
}

// The parser says `3:14: unquoted attribute value.`, and has not seen some lines before that.
function wordsOf(cause: unknown, unseen: number): string {
  const said = cause instanceof Error ? cause.message : String(cause);
  const [line = ''] = said.split('\n', 1);
  const match = /^(\d+):\d+: (.*?)\.?$/.exec(line);
  const words = (match?.[2] ?? line).slice(0, 160);
  return match === null ? words : `line ${Number(match[1]) + unseen}: ${words}`;
}

class Reader {
  readonly #text: string;
  readonly #limits: Pick<Limits, 'elements' | 'depth'>;
  readonly #elements: Building[] = [];
  readonly #byId = new Map<string, DrawingElement>();
  readonly #sheets = new Map<number, string>();
  readonly #instructions: string[] = [];
  readonly #open: Building[] = [];
  #names: string[] = [];
  #start = 0;
  #skipped = 0;
  #scripted = false;
  #rebased = false;

  constructor(text: string, limits: Pick<Limits, 'elements' | 'depth'>) {
    this.#text = text;
    this.#limits = limits;
  }

  skip(characters: number): void {
    this.#skipped += characters;
  }

  listen(parser: SaxesParser<{ xmlns: false }>): void {
    const position = (): number => parser.position + this.#skipped;
    parser.on('error', (error) => {
      throw error;
    });
    parser.on('doctype', (doctype) => {
      // The plain one names an address, which nobody fetches.
      if (!doctype.replace(/"[^"]*"|'[^']*'/g, '').includes('[')) return;
      throw new BadDrawing('declares entities of its own in its DOCTYPE, which are not expanded', {
        hint: 'save it again as plain SVG',
      });
    });
    parser.on('processinginstruction', ({ target }) => void this.#instructions.push(target));
    parser.on('opentagstart', () => {
      this.#start = this.#text.lastIndexOf('<', position() - 1);
      this.#names = [];
      this.#checkBudget();
    });
    parser.on('attribute', ({ name }) => void this.#names.push(name));
    parser.on('opentag', (tag) => {
      this.#begin(tag, position());
    });
    parser.on('closetag', (tag) => {
      this.#end(tag.isSelfClosing, position());
    });
    const gather = (piece: string): void => {
      const inside = this.#open.at(-1);
      if (inside?.name !== 'style' || inside.namespace !== namespaces.svg) return;
      this.#sheets.set(inside.index, (this.#sheets.get(inside.index) ?? '') + piece);
    };
    parser.on('text', gather);
    parser.on('cdata', gather);
  }

  finish(): Drawing {
    const [root] = this.#elements;
    if (root === undefined) throw new BadDrawing('holds no drawing');
    return {
      text: this.#text,
      elements: this.#elements,
      root,
      byId: this.#byId,
      sheets: this.#sheets,
      instructions: this.#instructions,
      scripted: this.#scripted,
      rebased: this.#rebased,
    };
  }

  #checkBudget(): void {
    const { elements, depth } = this.#limits;
    // How many there are in all is not known yet.
    if (this.#open.length >= depth) {
      const lifted = liftedBy('depth', 2 * depth);
      throw new BadDrawing(`is nested more than ${depth} elements deep${lifted}`, {
        limit: 'depth',
      });
    }
    if (this.#elements.length < elements) return;
    const lifted = liftedBy('elements', 2 * elements);
    throw new BadDrawing(`holds more than ${elements} elements${lifted}`, { limit: 'elements' });
  }

  #begin(tag: SaxesTagPlain, position: number): void {
    const parent = this.#open.at(-1) ?? null;
    const index = this.#elements.length;
    const scope = this.#scopeOf(tag, parent?.scope ?? outermost);
    const [prefix, name] = split(tag.name);
    const namespace = namespaceOf(scope, prefix) ?? null;
    this.#checkNames(scope, [tag.name, ...this.#names]);
    const id = this.#names.includes('id') ? (tag.attributes['id'] ?? null) : null;
    const element: Building = {
      index,
      parent,
      last: index,
      prefix,
      name,
      namespace: namespace === '' ? null : namespace,
      id,
      scope,
      start: this.#start,
      contentStart: position,
      contentEnd: position,
      end: position,
      selfClosing: tag.isSelfClosing,
    };
    if (parent === null) checkRoot(element);
    this.#notice(name);
    this.#elements.push(element);
    this.#open.push(element);
    if (id !== null && !this.#byId.has(id)) this.#byId.set(id, element);
  }

  #notice(name: string): void {
    this.#scripted ||= runsScript(name, this.#names);
    this.#rebased ||= this.#names.includes('xml:base');
  }

  #end(selfClosing: boolean, position: number): void {
    const element = this.#open.pop();
    if (element === undefined) return;
    element.last = this.#elements.length - 1;
    element.end = position;
    if (!selfClosing) element.contentEnd = this.#text.lastIndexOf('<', position - 1);
  }

  #scopeOf(tag: SaxesTagPlain, outer: Scope): Scope {
    const declared = this.#names.filter((name) => name === 'xmlns' || name.startsWith('xmlns:'));
    if (declared.length === 0) return outer;
    const own = new Map(declared.map((name) => [name.slice(6), tag.attributes[name] ?? '']));
    return { outer, own };
  }

  // Twice the same, and prefixes that nobody declared.
  #checkNames(scope: Scope, [tag = '', ...names]: readonly string[]): void {
    const expanded = names.map((name) => expand(scope, name));
    if (new Set(expanded).size < names.length) {
      throw new BadDrawing(`is not well-formed: <${tag}> has an attribute twice`);
    }
    if (tag.includes(':')) expand(scope, tag);
  }
}

// A name with what its prefix stands for in place of the prefix.
function expand(scope: Scope, name: string): string {
  if (!name.includes(':')) return name;
  const [prefix, local] = split(name);
  const space = prefix === 'xmlns' ? namespaces.xmlns : namespaceOf(scope, prefix);
  if (space !== undefined) return `${space} ${local}`;
  throw new BadDrawing(`is not well-formed: it uses the prefix ${prefix} and does not declare it`);
}

function split(name: string): readonly [prefix: string, local: string] {
  const at = name.indexOf(':');
  return at === -1 ? ['', name] : [name.slice(0, at), name.slice(at + 1)];
}

function runsScript(name: string, attributes: readonly string[]): boolean {
  return name === 'script' || attributes.some((one) => one.startsWith('on'));
}

function checkRoot({ name, namespace }: DrawingElement): void {
  if (name === 'svg' && namespace === namespaces.svg) return;
  if (name === 'svg' && namespace === null) {
    throw new BadDrawing('names no SVG namespace, without which it is no drawing', {
      hint: `begin it with <svg xmlns="${namespaces.svg}">`,
    });
  }
  throw new BadDrawing(`is no SVG drawing: its outermost element is <${name}>`);
}
