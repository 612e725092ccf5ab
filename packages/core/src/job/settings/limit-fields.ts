import type { LimitOptions } from '../../limits/limits.js';
import { parseCount, parseSeconds } from '../../limits/parse-limit.js';
import { type Field, type FieldsOf, text } from '../build/fields/field.js';

function count(what: string, limit: Exclude<keyof LimitOptions, 'mostSeconds'>): Field<number> {
  return text(what, (typed, name) => parseCount(typed, name, limit));
}

/** What files may ask for, by the options' own names: of the user's own file alone. */
export const limitFields: FieldsOf<LimitOptions> = {
  mostPixels: count('pixels that a picture may hold: 200M, in your own folder alone', 'mostPixels'),
  mostBytes: count('bytes that a file may hold: 1G, in your own folder alone', 'mostBytes'),
  mostSeconds: text(
    'seconds that a picture may take to decode: 60, in your own folder alone',
    parseSeconds,
  ),
  mostElements: count(
    'elements that a drawing may hold: 1M, in your own folder alone',
    'mostElements',
  ),
  mostDepth: count(
    'how deep elements of a drawing may lie in one another: 500, in your own folder alone',
    'mostDepth',
  ),
  mostLinks: count('files that a drawing may lead to: 10k, in your own folder alone', 'mostLinks'),
};
