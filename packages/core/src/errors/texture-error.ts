import type { LimitName } from '../limits/limits.js';

/** Why the world outside does not allow what was asked. */
export type TextureErrorCode =
  | 'no-file'
  | 'not-a-file'
  | 'unreadable'
  | 'not-a-picture'
  | 'unsupported-format'
  | 'damaged-picture'
  | 'too-large'
  | 'no-print-size'
  | 'output-is-input'
  | 'output-not-a-file'
  | 'no-output-folder'
  | 'unwritable'
  | 'unsupported-output'
  | 'not-a-drawing'
  | 'bad-drawing'
  | 'no-outline'
  | 'bad-sidecar'
  | 'stale-sidecar'
  | 'newer-sidecar'
  | 'bad-job'
  | 'bad-config'
  | 'bad-references'
  | 'changed-input'
  | 'bad-printer'
  | 'newer-printer'
  | 'printed-twice';

/** What a {@link TextureError} may carry beside its message. */
export interface TextureErrorOptions {
  /** What would work, where something would: one line, lower case, no full stop. */
  readonly hint?: string;
  /** The error underneath. */
  readonly cause?: unknown;
  /** The limit that a file is over, where one may lift it. */
  readonly limit?: LimitName;
}

// The same symbol wherever it is asked for.
const mark = Symbol.for('@gaugerod/core TextureError');

/** A file or folder does not allow what was asked: missing, damaged, too large, not writable. */
export class TextureError extends Error {
  /**
   * Tell whether something is one, of this copy of the library or of another that the process has loaded:
   * `@gaugerod/core` and `@gaugerod/core/bundle` hold one each.
   *
   * @param value - Anything.
   * @returns True for one of either.
   */
  static override [Symbol.hasInstance](value: unknown): value is TextureError {
    return value instanceof Error && mark in value;
  }

  /** One of a fixed list, for programs. */
  readonly code: TextureErrorCode;
  /** What would work, or undefined. */
  readonly hint: string | undefined;
  /** The limit that a file is over, or undefined. */
  readonly limit: LimitName | undefined;

  /**
   * Make one.
   *
   * @param code - One of a fixed list, for programs.
   * @param message - One line, lower case, no full stop, the file and value named.
   * @param options - A hint, a cause, and which limit it is about.
   */
  constructor(code: TextureErrorCode, message: string, options: TextureErrorOptions = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.name = 'TextureError';
    this.code = code;
    this.hint = options.hint;
    this.limit = options.limit;
    Object.defineProperty(this, mark, { value: true });
  }
}
