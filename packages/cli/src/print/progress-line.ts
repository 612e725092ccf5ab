/** Where progress is shown: a terminal, or nothing at all. */
export interface ProgressLine {
  /** Show a step in place of the one before. */
  readonly show: (step: string) => void;
  /** Wipe it, so that what is printed next begins on an empty line. */
  readonly clear: () => void;
}

const wipe = '\r\u001b[K';

/**
 * Show long work on one line of a terminal, and nothing in a pipe.
 *
 * @param stream - Usually standard error.
 * @param quiet - The user asked for silence.
 * @returns What to tell of each step.
 */
export function progressLine(
  stream: Pick<NodeJS.WriteStream, 'isTTY' | 'write'>,
  quiet: boolean,
): ProgressLine {
  if (!stream.isTTY || quiet) return { show: () => undefined, clear: () => undefined };
  return {
    show: (step) => void stream.write(`${wipe}${step} ...`),
    clear: () => void stream.write(wipe),
  };
}
