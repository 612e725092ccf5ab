import { inDigits } from './in-digits.js';

/**
 * Word how large a file is, and how large beside another.
 *
 * @param bytes - Of the file.
 * @param before - Of the other, 1 or more; may be left out.
 * @returns `412 KB, 3 % of what it was`.
 */
export function inBytes(bytes: number, before?: number): string {
  const size =
    bytes < 1000
      ? `${bytes} bytes`
      : bytes < 999_500
        ? `${inDigits(bytes / 1e3, 3)} KB`
        : `${inDigits(bytes / 1e6, 3)} MB`;
  return before === undefined
    ? size
    : `${size}, ${inDigits((bytes / before) * 100, 2)} % of what it was`;
}
