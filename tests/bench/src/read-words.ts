/** What a benchmark of measuring was told. */
export interface BenchWords {
  /** First seed of the pictures to draw. */
  readonly seed: number;
  /** How many pictures of a kind (`views=300`), where told. */
  readonly counts: ReadonlyMap<string, number>;
  /** Numbers of single pictures to try again (`only=17,23`); empty for all. */
  readonly only: ReadonlySet<number>;
  /** Folder to leave those in (`out=DIR`), or null. */
  readonly out: string | null;
  /** Words without `=`. */
  readonly rest: readonly string[];
}

/**
 * Read the words of a benchmark.
 *
 * @param words - Like `views=300`, `seed=4000000`, `only=17`, `out=DIR`, or a folder.
 * @param seed - The first seed, unless told.
 * @returns What they say.
 * @throws RangeError where a number is none.
 */
export function readWords(words: readonly string[], seed: number): BenchWords {
  const told = new Map<string, string>();
  const rest: string[] = [];
  for (const word of words) {
    const [, key, value] = /^([a-z]+)=(.+)$/.exec(word) ?? [];
    if (key !== undefined && value !== undefined) told.set(key, value);
    else rest.push(word);
  }
  const toCount = (key: string, value: string): number => {
    if (!/^\d+$/.test(value))
      throw new RangeError(`expected a whole number for ${key}, got ${value}`);
    return Number(value);
  };
  const { out = null, only = '', seed: first, ...counts } = Object.fromEntries(told);
  return {
    seed: first === undefined ? seed : toCount('seed', first),
    counts: new Map(Object.entries(counts).map(([key, value]) => [key, toCount(key, value)])),
    only: new Set(
      only
        .split(',')
        .filter(Boolean)
        .map((each) => toCount('only', each)),
    ),
    out,
    rest,
  };
}
