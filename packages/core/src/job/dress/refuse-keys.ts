import type { FoundOutlines, Outline } from '../../drawing/dress/find-outlines.js';
import { classesOf, type MatchedKeys, matchKeys } from '../../drawing/dress/match-keys.js';
import type { PaintKey } from '../../drawing/dress/paint-key.js';
import type { Drawing } from '../../drawing/drawing.js';
import type { Outcome } from '../../errors/outcome.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { showPath } from '../../errors/show-path.js';
import type { LeftOutline } from './dress-plan.js';

/** Why keys do not say what is to be covered. */
export type KeyRefusal = 'ambiguous-key' | 'no-outline' | 'too-many-outlines';

type Refusal = Extract<Outcome<never, KeyRefusal>, { ok: false }>;

/** Keys, and what they mean. */
export interface ToldKeys {
  /** The drawing. */
  readonly drawing: Drawing;
  /** As the user wrote them. */
  readonly keys: readonly PaintKey[];
  /** In it. */
  readonly meant: MatchedKeys;
}

/** What became of outlines that are meant. */
export interface LaidKeys {
  /** Outlines that cannot be covered. */
  readonly left: readonly LeftOutline[];
  /** The keys of those that can. */
  readonly laid: ReadonlySet<number>;
}

const mostNamed = 8;
// They take 400 MB.
const mostMeant = 50_000;

/**
 * Refuse a key that may mean two things, or that means nothing which can be covered.
 *
 * @param path - Of the drawing.
 * @param found - Its outlines.
 * @param told - What the user wrote, and what it means.
 * @returns Why, or null where every key will do.
 */
export function refuseKeys(path: string, found: FoundOutlines, told: ToldKeys): Refusal | null {
  const { drawing, keys, meant } = told;
  const shown = showPath(path);
  const [ambiguous] = meant.ambiguous;
  if (ambiguous !== undefined) {
    const { text, id } = ambiguous;
    return {
      ok: false,
      code: 'ambiguous-key',
      message: `${text} is both a fill colour and an id in ${shown}`,
      hint: `write fill:${text} for the colour, id:${id ?? ''} for the id`,
    };
  }
  if (meant.matched.length > mostMeant) {
    return {
      ok: false,
      code: 'too-many-outlines',
      message: `the keys mean ${meant.matched.length} outlines in ${shown}, and ${mostMeant} is the most`,
      hint: 'join those that lie side by side into one path, or cover a part of the drawing at a time',
    };
  }
  const unmet = keys.findIndex((_, i) => meant.matched.every(({ key }) => key !== i));
  const key = keys[unmet];
  if (key !== undefined) {
    if (matchKeys(drawing, found.outlines, [key]).matched.length > 0) {
      const message = `all that ${showPath(key.text)} means in ${shown} is meant by another key more closely`;
      return { ok: false, code: 'no-outline', message };
    }
    const names = listNames(drawing, found.outlines);
    const hint = names === '' ? nothingFilled : names;
    const message = `nothing in ${shown} ${wordsOf(key, drawing)}`;
    return { ok: false, code: 'no-outline', message, hint };
  }
  return null;
}

/**
 * Refuse a key of whose outlines none can be covered.
 *
 * @param path - Of the drawing.
 * @param keys - As the user wrote them.
 * @param outcome - What became of the outlines that they mean.
 * @returns Why, or null where every key has one.
 */
export function refuseLeft(
  path: string,
  keys: readonly PaintKey[],
  outcome: LaidKeys,
): Refusal | null {
  const { left, laid } = outcome;
  const bare = left.find(({ matched }) => !laid.has(matched.key));
  if (bare === undefined) return null;
  const text = showPath(keys[bare.matched.key]?.text ?? '');
  const message = `nothing that ${text} means in ${showPath(path)} can be covered: it ${bare.why}`;
  return { ok: false, code: 'no-outline', message };
}

const nothingFilled =
  'it shows no shape that can be covered: draw closed paths, rectangles, ellipses or polygons, and make text into paths';

/**
 * Refuse keys that are one, whichever way they are written.
 *
 * @param keys - As the user wrote them.
 * @param name - What they are for.
 * @throws RangeError where two mean the same.
 */
export function refuseTwice(keys: readonly PaintKey[], name = 'paint'): void {
  for (const [i, key] of keys.entries()) {
    for (const before of keys.slice(0, i)) {
      const same = before.text === key.text ? 'twice' : sameIn(before, key);
      if (same === null) continue;
      const got =
        same === 'twice' ? `${key.text} twice` : `${before.text} and ${key.text}, ${same}`;
      throw outOfRange('each key once', name, got);
    }
  }
}

function sameIn(a: PaintKey, b: PaintKey): string | null {
  if (a.colour !== null && a.colour === b.colour) {
    const isEither = [a, b].some(({ id }) => id !== null);
    return isEither ? 'which are one colour (an id is written id:name)' : 'which are one colour';
  }
  if (a.id !== null && a.id === b.id) return 'which are one id (a colour is written fill:name)';
  return a.className !== null && a.className === b.className ? 'which are one class' : null;
}

function wordsOf({ text, colour, id, className }: PaintKey, drawing: Drawing): string {
  if (className !== null) return `is of the class ${showPath(className)}`;
  if (id === null) return `is filled with ${showPath(text)}`;
  const isThere = drawing.byId.has(id);
  if (colour !== null && !isThere) return `is filled with ${text}, or has it for an id`;
  return isThere
    ? `that can be filled stands in ${showPath(`#${id}`)}`
    : `has the id ${showPath(id)}`;
}

// What could be meant, the most frequent first.
function listNames(drawing: Drawing, outlines: readonly Outline[]): string {
  const colours = new Map<string, number>();
  const ids = new Map<string, number>();
  const classes = new Map<string, number>();
  const count = (counts: Map<string, number>, name: string): void => {
    counts.set(name, (counts.get(name) ?? 0) + 1);
  };
  for (const { fill, holders, left } of outlines) {
    if (left !== null) continue;
    if (fill.startsWith('#')) count(colours, fill);
    for (const holder of holders.slice(0, -1)) {
      if (holder.id !== null) count(ids, `#${holder.id}`);
      for (const name of classesOf(drawing, holder)) count(classes, `.${name}`);
    }
  }
  const lists = [
    ['fill colours', colours],
    ['ids', ids],
    ['classes', classes],
  ] as const;
  const words = lists
    .filter(([, counts]) => counts.size > 0)
    .map(([what, counts]) => `${what} ${inOrder(counts)}`);
  return words.length === 0 ? '' : `there are the ${words.join('; ')}`;
}

function inOrder(counts: ReadonlyMap<string, number>): string {
  const names = [...counts].toSorted(([, a], [, b]) => b - a).map(([name]) => name.slice(0, 40));
  const named = names.slice(0, mostNamed).join(', ');
  return showPath(
    names.length > mostNamed ? `${named} and ${names.length - mostNamed} more` : named,
  );
}
