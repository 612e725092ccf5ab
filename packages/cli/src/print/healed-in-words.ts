import type { MendedPhoto } from '@gaugerod/core';

/**
 * Say what became of bricks that no cut could leave whole.
 *
 * @param healed - As mended.
 * @returns `14 put where the cut would have halved others`, or null where all were whole.
 */
export function healedInWords(healed: MendedPhoto['healed']): string | null {
  const { replaced, left } = healed;
  const done = replaced > 0 ? [`${replaced} laid where a cut would have halved others`] : [];
  const undone = left > 0 ? [`${left} left halved, for want of one as long`] : [];
  const told = [...done, ...undone];
  return told.length > 0 ? told.join('; ') : null;
}
