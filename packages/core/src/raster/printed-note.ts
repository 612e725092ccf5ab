/** What files say whose colours were changed for a printer, so that it is not done twice. */
export const printedNote = 'gaugerod: colours made for a printer';

/**
 * Let rows say that their colours were changed for a printer.
 *
 * @param source - Rows.
 * @param isPrinted - Whether they were.
 * @returns The same rows.
 */
export function notePrinted<Source extends object>(
  source: Source,
  isPrinted: boolean,
): Source & { readonly note?: string } {
  return isPrinted ? { ...source, note: printedNote } : source;
}
