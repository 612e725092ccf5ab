import type { Span } from '../../surface/span.js';
import type { StatedLength } from '../../units/parse-stated-length.js';
import type { KnownSpan } from './measure-spans.js';

/**
 * Give a line the length that somebody states.
 *
 * @param span - Its ends.
 * @param stated - Its real length, with how far that may be off.
 * @returns Both.
 */
export function toKnownSpan(span: Span, stated: StatedLength): KnownSpan {
  const [from, to] = span;
  const { length } = stated;
  const tolerance: number = stated.tolerance ?? 0;
  // Anywhere within the tolerance alike: JCGM 100:2008 (GUM), 4.3.7.
  return { from, to, length, lengthUncertainty: tolerance / Math.sqrt(3) / length };
}
