import type { TextureErrorCode } from '../../errors/texture-error.js';

/** What a kind of file that people write holds. */
export interface YamlForm {
  /** As one says it: `a job`. */
  readonly what: string;
  /** What a file that does not keep to it is refused as. */
  readonly code: TextureErrorCode;
  /** The form itself, a JSON Schema (draft 2020-12). */
  readonly schema: Readonly<Record<string, unknown>>;
}
