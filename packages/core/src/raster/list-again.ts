/** Rows, or columns, of a picture that are the same as others before them, to the byte. */
export interface Again {
  /** The first of them. */
  readonly at: number;
  /** The first of those that they are the same as; none of these is such a one itself. */
  readonly from: number;
  /** How many: none reaches into itself. */
  readonly length: number;
}

/** A picture that is laid again and again along an axis, each time over the end of the one before. */
export interface LaidAlong {
  /** After how many dots all of it comes again, 1 or more. */
  readonly period: number;
  /** Where in them it is laid, from 0 on. */
  readonly starts: readonly number[];
}

/**
 * List what of a page is the same as what stands before it.
 *
 * @param laid - What the page is covered with.
 * @param start - The dot of it that lies on the page's first, of any sign.
 * @param length - Dots of the page.
 * @returns In order; the rest of the page is new.
 */
export function listAgain(laid: LaidAlong, start: number, length: number): readonly Again[] {
  const { period, starts } = laid;
  const ends = [...starts.slice(1), period];
  const first = new Int32Array(Math.max(...ends.map((end, i) => end - starts[i]!))).fill(-1);
  const runs: Again[] = [];
  let place = start - Math.floor(start / period) * period;
  let copy = ends.findIndex((end) => end > place);
  for (let at = 0; at < length;) {
    const begin = place - starts[copy]!;
    const count = Math.min(ends[copy]! - place, length - at);
    addRuns(runs, first, { at, begin, count });
    at += count;
    copy = (copy + 1) % starts.length;
    place = starts[copy]!;
  }
  return runs;
}

// Dots of a copy, side by side on the page: those that were seen before, and those that were not.
function addRuns(
  runs: Again[],
  first: Int32Array,
  stretch: { readonly at: number; readonly begin: number; readonly count: number },
): void {
  const { at, begin, count } = stretch;
  for (let i = 0; i < count;) {
    const from = first[begin + i]!;
    if (from < 0) {
      first[begin + i] = at + i;
      i++;
      continue;
    }
    let length = 1;
    while (i + length < count && first[begin + i + length] === from + length) length++;
    runs.push({ at: at + i, from, length });
    i += length;
  }
}
