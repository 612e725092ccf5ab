import type { Random } from '@gaugerod/fixtures';

/** Something that reads what comes from outside. */
export interface Reader {
  /** What `--reader` takes. */
  readonly name: string;
  /** Words of its format, which make mutations that get past the first look. */
  readonly words: readonly (string | Uint8Array)[];
  /** Whether whole files take long to read: the tests do that elsewhere. */
  readonly isSlow?: true;
  /** How many cases the tests try. */
  readonly tried: number;
  /** Whole files of its format, made by code. */
  readonly seeds: () => Promise<readonly Uint8Array[]> | readonly Uint8Array[];
  /** Changes that know its form; every other case is of these where they are given. */
  readonly change?: (whole: Buffer, random: Random) => Buffer;
  /** Read one: it comes back, or throws what {@link isRefusal} knows. Anything else is a fault. */
  readonly read: (bytes: Buffer) => unknown;
  /** Classes of errors of its own, which whoever calls it puts into words. */
  readonly refusals?: readonly (abstract new (...given: never[]) => Error)[];
}

/**
 * Make words of bytes that are no text.
 *
 * @param words - One letter a byte.
 * @returns Their bytes.
 */
export function inBytes(words: readonly string[]): readonly Uint8Array[] {
  return words.map((word) => Buffer.from(word, 'latin1'));
}

/** What a reader gave is not what it promises. */
class BrokenPromise extends Error {}

/**
 * Hold a reader to what it promises.
 *
 * @param holds - Whether it does.
 * @param promise - What it is, in words.
 * @throws BrokenPromise where it does not.
 */
export function promise(holds: boolean, promise: string): asserts holds {
  if (!holds) throw new BrokenPromise(promise);
}

/**
 * Hold every number of a result to be one.
 *
 * @param value - Plain objects, lists and values.
 * @param path - Where it stands.
 * @throws BrokenPromise where one is NaN or infinite.
 */
export function allFinite(value: unknown, path = 'the result'): void {
  if (typeof value === 'number') promise(Number.isFinite(value), `${path} is ${value}`);
  if (typeof value !== 'object' || value === null) return;
  if (ArrayBuffer.isView(value)) {
    const numbers = value as unknown as ArrayLike<number>;
    if (numbers.length > 10_000) return;
    for (let i = 0; i < numbers.length; i++) allFinite(numbers[i], `${path}[${i}]`);
    return;
  }
  for (const [key, one] of Object.entries(value)) allFinite(one, `${path}.${key}`);
}
