import type { Outcome } from '../../errors/outcome.js';

/** Marks that put a length out by more than this (k = 1), as a fraction, measure nothing. */
const mostOpen = 0.2;

/**
 * Refuse lines that are too short for where they were marked.
 *
 * @param marks - What marking their ends puts the scale out by (k = 1), a fraction.
 * @returns The refusal, or null where they will do.
 */
export function refuseShort(
  marks: number,
): Extract<Outcome<never, 'span-too-short'>, { readonly ok: false }> | null {
  if (marks <= mostOpen) return null;
  const percent = Number((200 * marks).toPrecision(2));
  return {
    ok: false,
    code: 'span-too-short',
    message: `the span is too short: ends marked to a pixel or so leave it open by ${percent} %`,
    hint: 'mark a longer one, or measure a larger photo',
  };
}
