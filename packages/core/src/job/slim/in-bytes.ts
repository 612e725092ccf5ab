/**
 * Word a number of bytes as people do.
 *
 * @param bytes - 0 or more.
 * @returns `812 bytes`, `412 KB`, `12.4 MB`; thousands, not 1024.
 */
export function inBytes(bytes: number): string {
  if (bytes < 1000) return bytes === 1 ? '1 byte' : `${bytes} bytes`;
  if (bytes < 999_500) return `${Number((bytes / 1e3).toPrecision(3))} KB`;
  return `${Number((bytes / 1e6).toPrecision(3))} MB`;
}
