import type { LimitName } from '../limits/limits.js';

/** What a {@link BadDrawing} may carry beside its message. */
export interface BadDrawingOptions {
  /** What would work, one line. */
  readonly hint?: string;
  /** The error underneath. */
  readonly cause?: unknown;
  /** The limit that it is over, where one may lift it. */
  readonly limit?: LimitName;
}

/** A file is no drawing that can be worked on; the message says why, to follow the file's name. */
export class BadDrawing extends Error {
  /** What would work, or undefined. */
  readonly hint: string | undefined;
  /** The limit that it is over, or undefined. */
  readonly limit: LimitName | undefined;

  /**
   * Make one.
   *
   * @param message - One line, to follow the file's name.
   * @param options - A hint and a cause.
   */
  constructor(message: string, options: BadDrawingOptions = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.name = 'BadDrawing';
    this.hint = options.hint;
    this.limit = options.limit;
  }
}
