import type { NoiseRun } from './noise.js';
import type { PlaceSpan } from './octaves.js';

/**
 * List the places that things on a row reach, so that what lies between them costs nothing.
 *
 * @param run - The row's places.
 * @param things - From where to where each reaches, mm to the right of the datum.
 * @returns Stretches of places, in order, no two of which touch.
 */
export function joinSpans(
  run: NoiseRun,
  things: readonly { readonly left: number; readonly right: number }[],
): readonly PlaceSpan[] {
  const { first, count, step, start } = run;
  const spans = things
    .map(({ left, right }) => ({
      from: Math.max(0, Math.floor((left - start) / step) - first),
      to: Math.min(count, Math.ceil((right - start) / step) - first + 1),
    }))
    .filter(({ from, to }) => from < to)
    .sort((a, b) => a.from - b.from);
  const joined: PlaceSpan[] = [];
  for (const span of spans) {
    const last = joined.at(-1);
    if (last === undefined || span.from > last.to) joined.push(span);
    else joined[joined.length - 1] = { from: last.from, to: Math.max(last.to, span.to) };
  }
  return joined;
}
