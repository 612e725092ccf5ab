// Controls, line and paragraph separators, marks that turn the writing direction, and halves of
// surrogate pairs: whatever moves the cursor or lies about the order of what is read.
const unsafe = /[\p{Cc}\p{Cs}\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/gu;

/**
 * Make any text safe to stand on one line of a terminal.
 *
 * @param text - Perhaps a file's name, which may hold anything.
 * @returns The same, with what a terminal would obey written as `\x1b` or `\u{202e}`.
 */
export function escape(text: string): string {
  return text.replace(unsafe, (character) => {
    const code = character.codePointAt(0) ?? 0;
    const hex = code.toString(16);
    return code < 0x100 ? `\\x${hex.padStart(2, '0')}` : `\\u{${hex}}`;
  });
}
