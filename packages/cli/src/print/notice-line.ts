const colours = { error: '31', warning: '33', hint: '36' } as const;

/** What a line on standard error is. */
export type NoticeKind = keyof typeof colours;

/**
 * Word one line for standard error.
 *
 * @param kind - Error, warning or hint.
 * @param message - One line, fit for a terminal.
 * @param colour - Whether the terminal wants colour.
 * @returns The line, with its line end.
 */
export function noticeLine(kind: NoticeKind, message: string, colour: boolean): string {
  const label = colour ? `\u001b[${colours[kind]}m${kind}:\u001b[0m` : `${kind}:`;
  return `${label} ${message}\n`;
}
