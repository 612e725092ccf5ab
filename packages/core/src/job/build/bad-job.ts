/** Where in a job file something stands: keys and places in lists, from its top. */
export type JobPath = readonly (string | number)[];

/** What more is known of a fault. */
export interface BadJobOptions {
  /** What would work, where something would. */
  readonly hint?: string;
  /** Whether the key itself is meant, not what it holds. */
  readonly atKey?: boolean;
  /** The error underneath. */
  readonly cause?: unknown;
}

/** What is wrong with one place of a job file. */
export class BadJob extends Error {
  /** Where. */
  readonly path: JobPath;
  /** Whether the key itself is meant, not what it holds. */
  readonly atKey: boolean;
  /** What would work, or undefined. */
  readonly hint: string | undefined;

  /**
   * Make one.
   *
   * @param path - Where.
   * @param message - What, one line.
   * @param more - What would work, and whether the key is meant.
   */
  constructor(path: JobPath, message: string, more: BadJobOptions = {}) {
    super(message, more.cause === undefined ? undefined : { cause: more.cause });
    this.name = 'BadJob';
    this.path = path;
    this.atKey = more.atKey ?? false;
    this.hint = more.hint;
  }
}
