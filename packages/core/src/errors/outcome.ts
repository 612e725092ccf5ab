import type { LimitName } from '../limits/limits.js';
import type { Warning } from './warning.js';

/** What kept something from being done. */
export interface Failing {
  /** One line, lower case, no full stop. */
  readonly message: string;
  /** What would work, or nothing. */
  readonly hint?: string;
  /** The limit that a file is over, where one may lift it. */
  readonly limit?: LimitName;
}

/** A value with its warnings, or why this picture allows none. */
export type Outcome<Value, Code extends string> =
  | { readonly ok: true; readonly value: Value; readonly warnings: readonly Warning[] }
  | {
      readonly ok: false;
      readonly code: Code;
      readonly message: string;
      readonly hint?: string;
      /** The limit that a file is over, where one may lift it. */
      readonly limit?: LimitName;
      /** What else failed, where several things were to be done. */
      readonly others?: readonly Failing[];
    };
