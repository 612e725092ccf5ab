/** Where a format of brick, block or tile is at home. */
export type FormatRegion = 'UK' | 'EU' | 'US' | 'AU';

const regions: Readonly<Record<string, FormatRegion>> = {
  uk: 'UK',
  de: 'EU',
  nl: 'EU',
  fr: 'EU',
  us: 'US',
  au: 'AU',
};

/**
 * Tell where a format is at home, by the country that its id begins with.
 *
 * @param id - Of the catalogue, like `de-nf`.
 * @returns The region, or null where the id names none: a roof, a sort that is everywhere.
 */
export function regionOf(id: string): FormatRegion | null {
  return regions[id.split('-', 1)[0] ?? ''] ?? null;
}
