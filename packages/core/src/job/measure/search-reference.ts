import { nearNames } from '../../catalogue/near-names.js';
import { type CatalogueEntry, searchCatalogue } from '../../catalogue/search.js';
import type { OwnReference } from '../../catalogue/own-reference.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';

/** What was found in the catalogue. */
export interface FoundReference {
  /** One's own first, then scales, then masonry, roofs, timber and steel. */
  readonly entries: readonly CatalogueEntry[];
}

/**
 * Look something up in the catalogue.
 *
 * @param words - Words or parts of words that an entry must all have; everything where left out.
 * @param own - References beside the catalogue's.
 * @returns The entries, or that there are none.
 */
export function searchReference(
  words = '',
  own: readonly OwnReference[] = [],
): Outcome<FoundReference, 'no-entry'> {
  const entries = searchCatalogue(words, own);
  if (entries.length > 0) return { ok: true, value: { entries }, warnings: [] };
  const near = nearNames(
    words,
    searchCatalogue('', own).map(({ id }) => id),
  );
  return {
    ok: false,
    code: 'no-entry',
    message: `nothing in the catalogue is called "${showPath(words)}"`,
    hint:
      near.length > 0
        ? `did you mean ${near.join(', ')}?`
        : 'look for scale, brick, block, bond, roofing, timber or section',
  };
}
