/**
 * Write a word as a shell would need it written.
 *
 * @param word - A file's name, say.
 * @returns The same where it is plain, else in quotes; a leading dash is hidden behind `./`.
 */
export function inShell(word: string): string {
  const plain = word.startsWith('-') ? `./${word}` : word;
  return /^[\w./:\\+@%-]+$/.test(plain) ? plain : `'${plain.replaceAll("'", String.raw`'\''`)}'`;
}
