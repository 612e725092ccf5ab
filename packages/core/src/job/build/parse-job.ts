import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  visit,
  type YAMLMap,
} from 'yaml';
import { bounds, limitsFor } from '../../limits/limits.js';
import type { JobPath } from './bad-job.js';

/** A job file's text, taken apart. */
export interface ParsedJob {
  /** What it holds, in plain objects and lists. */
  readonly data: unknown;
  /**
   * Tell where something stands.
   *
   * @param path - From the top.
   * @param atKey - Whether its key is meant.
   * @returns Line and column, from 1; of what holds it where it is not there.
   */
  readonly locate: (path: JobPath, atKey: boolean) => JobPosition;
}

/** A place in a text. */
export interface JobPosition {
  /** From 1. */
  readonly line: number;
  /** From 1. */
  readonly column: number;
}

/** A text that is no YAML, or more than a job file needs. */
export class BadYaml extends Error {
  /** Where. */
  readonly position: JobPosition;

  /**
   * Make one.
   *
   * @param message - What, one line, to follow the file's name.
   * @param position - Where.
   */
  constructor(message: string, position: JobPosition) {
    super(message);
    this.name = 'BadYaml';
    this.position = position;
  }
}

const tooDeep = 'is nested too deeply';

/**
 * Take a job file's text apart: YAML 1.2, one document, no key twice, nothing made of tags.
 *
 * @param text - Of the file.
 * @param what - What it is, as one says it.
 * @returns What it holds, and where.
 * @throws BadYaml where it is none.
 */
export function parseJob(text: string, what: string): ParsedJob {
  const lines = new LineCounter();
  const at = (offset: number): JobPosition => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  refuseDeep(text);
  try {
    const document = parseDocument(text, {
      version: '1.2',
      lineCounter: lines,
      prettyErrors: false,
      logLevel: 'error',
      // Else YAML 1.1's !!set, !!omap and !!binary make other than plain objects and lists.
      resolveKnownTags: false,
      // Looked for below: the library compares each key with all others.
      uniqueKeys: false,
    });
    const [fault] = [...document.errors, ...document.warnings];
    if (fault !== undefined) {
      const position = at(fault.pos[0]);
      throw new BadYaml(`${inWords(fault, what)}${ofComment(text, position)}`, position);
    }
    refuseDirective(document);
    refuseTwice(document, at);
    const data: unknown = document.toJS({ maxAliasCount: bounds.aliases });
    const index: Index = new WeakMap();
    return { data, locate: (path, atKey) => at(offsetOf(document, { path, atKey }, index)) };
  } catch (cause) {
    if (cause instanceof BadYaml) throw cause;
    // Past its limits, and on aliases of themselves, the library throws what comes.
    const isDeep = cause instanceof RangeError;
    const why = isDeep ? tooDeep : `holds more aliases, or deeper ones, than ${what} needs`;
    throw new BadYaml(why, { line: 1, column: 1 });
  }
}

// Before a parser that goes down by calling itself.
function refuseDeep(text: string): void {
  const deepest = limitsFor('yaml', {}).depth;
  let depth = 0;
  let line = 1;
  for (const sign of text) {
    if (sign === '\n') line++;
    else if (sign === '[' || sign === '{') depth++;
    else if (sign === ']' || sign === '}') depth = Math.max(0, depth - 1);
    if (depth > deepest) throw new BadYaml(tooDeep, { line, column: 1 });
  }
}

function refuseTwice(document: Document.Parsed, at: (offset: number) => JobPosition): void {
  visit(document, {
    Map(_, { items }) {
      const seen = new Set<string>();
      for (const { key } of items) {
        const text = String(isScalar(key) ? key.value : key);
        if (seen.has(text)) throw new BadYaml('holds one key twice', at(startOf(key) ?? 0));
        seen.add(text);
      }
    },
  });
}

// Of another version, 1:43 is a number of minutes.
function refuseDirective({ directives }: Document.Parsed): void {
  if (directives.yaml.explicit && directives.yaml.version !== '1.2')
    throw new BadYaml(`is YAML ${directives.yaml.version}, and 1.2 is read`, {
      line: 1,
      column: 1,
    });
}

// The likeliest mistake of all: a colour or an id without quotes.
function ofComment(text: string, { line }: JobPosition): string {
  const near = text.split('\n').slice(Math.max(0, line - 2), line);
  const hidden = near.find((one) => /[:,[{] *#/.test(one));
  return hidden === undefined
    ? ''
    : ' (a # begins a comment: write "#7a543e" or "#gable" in quotes)';
}

const words = new Map<string, string>([
  ['TAB_AS_INDENT', 'is indented with a tab: use blanks'],
  ['TAG_RESOLVE_FAILED', 'holds a tag (!…), and none is known'],
  ['BAD_INDENT', 'is indented otherwise than the lines around it'],
]);

interface Fault {
  readonly code: string;
  readonly message: string;
}

function inWords({ code, message }: Fault, what: string): string {
  const [first = ''] = message.split('\n', 1);
  if (first.includes('call stack')) return tooDeep;
  if (code === 'MULTIPLE_DOCS') return `holds several documents: ${what} is one`;
  return words.get(code) ?? `is no YAML: ${first.replace(/[.:]$/, '').toLowerCase()}`;
}

// Of a map that was asked once, its pairs by their keys: a job may be wrong in thousands of places.
type Index = WeakMap<YAMLMap, ReadonlyMap<string, Pair>>;

function pairOf(map: YAMLMap, step: string, index: Index): Pair | undefined {
  let pairs = index.get(map);
  if (pairs === undefined) {
    pairs = new Map(
      map.items.map((pair) => [String(isScalar(pair.key) ? pair.key.value : pair.key), pair]),
    );
    index.set(map, pairs);
  }
  return pairs.get(step);
}

interface Wanted {
  readonly path: JobPath;
  readonly atKey: boolean;
}

function offsetOf(document: Document.Parsed, { path, atKey }: Wanted, index: Index): number {
  let node: unknown = document.contents;
  let offset = startOf(node) ?? 0;
  for (const [depth, step] of path.entries()) {
    const whole = isAlias(node) ? node.resolve(document) : node;
    if (isMap(whole)) {
      const pair = pairOf(whole, String(step), index);
      if (pair === undefined) return offset;
      const isKey = atKey && depth === path.length - 1;
      const [key, value] = [startOf(pair.key), startOf(pair.value)];
      offset = (isKey ? key : (value ?? key)) ?? offset;
      node = pair.value;
    } else if (isSeq(whole)) {
      node = whole.items[Number(step)];
      offset = startOf(node) ?? offset;
    } else return offset;
  }
  return offset;
}

function startOf(node: unknown): number | null {
  return isNode(node) ? ((node as Node).range?.[0] ?? null) : null;
}
