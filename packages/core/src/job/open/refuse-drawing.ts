import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { LimitName } from '../../limits/limits.js';

/** Why a drawing is refused. */
export interface DrawingFault {
  /** One line, to follow the file's name. */
  readonly message: string;
  /** What would work, one line. */
  readonly hint?: string | undefined;
  /** The limit that it is over. */
  readonly limit?: LimitName | undefined;
}

/**
 * Refuse a drawing by the name of its file.
 *
 * @param path - Where it lies.
 * @param code - Which refusal it is; of what is over a limit, `too-large`.
 * @param why - Its words, which may quote the file.
 * @returns What to throw.
 */
export function refuseDrawing(
  path: string,
  code: 'bad-drawing' | 'no-outline' | 'no-print-size',
  why: DrawingFault,
): TextureError {
  const { message, hint, limit } = why;
  return new TextureError(
    limit === undefined ? code : 'too-large',
    `${showPath(path)} ${showPath(message)}`,
    {
      ...(why instanceof Error && { cause: why }),
      ...(hint !== undefined && { hint: showPath(hint) }),
      ...(limit !== undefined && { limit }),
    },
  );
}
