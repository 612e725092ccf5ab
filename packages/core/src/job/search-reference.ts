import { nearNames } from '../catalogue/near-names.js';
import { type CatalogueEntry, searchCatalogue } from '../catalogue/search.js';
import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';

/** What was found in the catalogue. */
export interface FoundReference {
  /** Scales first, then masonry, roofs, timber and steel. */
  readonly entries: readonly CatalogueEntry[];
}

/**
 * Look something up in the catalogue.
 *
 * @param words - Words or parts of words that an entry must all have; everything where left out.
 * @returns The entries, or that there are none.
 */
export function searchReference(words = ''): Outcome<FoundReference, 'no-entry'> {
  const entries = searchCatalogue(words);
  if (entries.length > 0) return { ok: true, value: { entries }, warnings: [] };
  const near = nearNames(
    words,
    searchCatalogue().map(({ id }) => id),
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
