import type { Straighten } from '@gaugerod/core';
import { UsageError } from '../print/usage-error.js';

/** What was said of straightening. */
interface Said {
  readonly levelOnly?: true;
  readonly noRectify?: true;
}

/**
 * Put both switches into the one option that jobs know.
 *
 * @param values - A command's options, once read.
 * @returns How far the photo may be straightened, where that was said.
 * @throws UsageError when both were given.
 */
export function straightenOf(values: Said): { readonly straighten?: Straighten } {
  const { levelOnly, noRectify } = values;
  if (levelOnly && noRectify) {
    throw new UsageError('expected --level-only or --no-rectify, got both');
  }
  if (noRectify) return { straighten: 'none' };
  return levelOnly ? { straighten: 'level' } : {};
}
