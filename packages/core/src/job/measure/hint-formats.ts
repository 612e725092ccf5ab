import type { Photo } from '../../read/read-photo.js';
import { given } from '../given.js';
import type { Refusal } from './hint-kept.js';
import { offerFormats, type OfferFormatsOptions } from './offer-formats.js';

type HintedBy = Pick<OfferFormatsOptions, 'axis' | 'straighten' | 'references'>;

/** So many formats are named in a hint. */
const mostNamed = 4;

/**
 * Where a photo was not measured because nobody said what it shows, look what its courses could be,
 * so that the hint names formats of the right shape.
 *
 * @param refusal - Why it was not measured.
 * @param photo - As read.
 * @param options - How its courses lie, how far it may be straightened, and references beside the catalogue's.
 * @returns The same refusal, with a better hint where there is one.
 * @throws TextureError when a file does not allow it.
 */
export async function hintFormats(
  refusal: Refusal,
  photo: Photo,
  options: HintedBy,
): Promise<Refusal> {
  if (refusal.code !== 'not-measured') return refusal;
  const { axis, straighten, references } = options;
  const offered = await offerFormats(photo, given({ axis, straighten, references }));
  if (!offered.ok) return refusal;
  const ids = offered.value.formats.slice(0, mostNamed).map(({ id }) => id);
  const [first] = ids;
  if (first === undefined) return refusal;
  const hint = `by their shape its courses are likeliest ${ids.join(', ')}: name the one it is (--course ${first}), or give a --span and its --length`;
  return { ...refusal, hint };
}
