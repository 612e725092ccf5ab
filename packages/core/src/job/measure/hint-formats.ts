import type { OwnReference } from '../../catalogue/own-reference.js';
import type { Photo } from '../../read/read-photo.js';
import type { Refusal } from './hint-kept.js';
import { offerFormats } from './offer-formats.js';

/** So many formats are named in a hint. */
const mostNamed = 4;

/**
 * Where a photo was not measured because nobody said what it shows, look what its courses could be,
 * so that the hint names formats of the right shape.
 *
 * @param refusal - Why it was not measured.
 * @param photo - As read.
 * @param references - Beside the catalogue's; none unless told.
 * @returns The same refusal, with a better hint where there is one.
 * @throws TextureError when a file does not allow it.
 */
export async function hintFormats(
  refusal: Refusal,
  photo: Photo,
  references: readonly OwnReference[] = [],
): Promise<Refusal> {
  if (refusal.code !== 'not-measured') return refusal;
  const offered = await offerFormats(photo, { references });
  if (!offered.ok) return refusal;
  const ids = offered.value.formats.slice(0, mostNamed).map(({ id }) => id);
  const [first] = ids;
  if (first === undefined) return refusal;
  const hint = `by their shape its courses are likeliest ${ids.join(', ')}: name the one it is (--course ${first}), or give a --span and its --length`;
  return { ...refusal, hint };
}
