/** What a {@link UsageError} may carry beside its message. */
export interface UsageErrorOptions {
  /** What would work, one line. */
  readonly hint?: string;
  /** The error underneath. */
  readonly cause?: unknown;
}

/** The command line itself was wrong. */
export class UsageError extends Error {
  /** What would work, or undefined. */
  readonly hint: string | undefined;

  /**
   * Make one.
   *
   * @param message - One line, the option and its value named.
   * @param options - A hint and a cause.
   */
  constructor(message: string, options: UsageErrorOptions = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.name = 'UsageError';
    this.hint = options.hint;
  }
}
