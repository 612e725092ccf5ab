import type { Warning } from './warning.js';

/** A value with its warnings, or why this picture allows none. */
export type Outcome<Value, Code extends string> =
  | { readonly ok: true; readonly value: Value; readonly warnings: readonly Warning[] }
  | {
      readonly ok: false;
      readonly code: Code;
      readonly message: string;
      readonly hint?: string;
    };
