// What JSON.stringify leaves as it is, though a terminal would obey it.
const unsafe = /[\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/g;

/** How a result is to be laid out. */
export interface ToJsonOptions {
  /** All of it in one line, for there may be many. */
  readonly perLine: boolean;
}

/**
 * Write a result as JSON that a program and a terminal may both be shown.
 *
 * @param value - Plain objects, arrays, texts, finite numbers, booleans, null.
 * @param options - How it is laid out.
 * @returns JSON, indented or in one line, in ASCII where a terminal would otherwise obey it.
 * @throws Error when a number is not finite: it would silently become `null`.
 */
export function toJson(value: object, options: ToJsonOptions): string {
  const text = JSON.stringify(
    value,
    (key, item: unknown) => {
      if (typeof item === 'number' && !Number.isFinite(item)) {
        throw new Error(`the result holds ${item} under ${key}`);
      }
      return item;
    },
    options.perLine ? 0 : 2,
  );
  return text.replace(
    unsafe,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
