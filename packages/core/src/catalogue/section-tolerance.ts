import type { SectionEntry } from './section-entry.js';

/** How far a rolled section's depth may be off. */
export interface SectionTolerance {
  /** Half the band its depth may lie in, mm. */
  readonly half: number;
  /** Where that comes from. */
  readonly source: string;
}

// Depth, or longer leg, up to so many mm, and half the band.
type Bands = readonly (readonly [most: number, half: number])[];

interface Standard {
  readonly name: string;
  readonly bands: Bands;
}

// +3/-2, +4/-2, +5/-3, +5/-5.
const beams: Standard = {
  name: 'EN 10034',
  bands: [
    [180, 2.5],
    [400, 3],
    [700, 4],
    [Infinity, 5],
  ],
};

const standards: Readonly<Record<SectionEntry['shape'], Standard>> = {
  i: beams,
  channel: {
    name: 'EN 10279',
    bands: [
      [65, 1.5],
      [200, 2],
      [400, 3],
      [Infinity, 4],
    ],
  },
  // The last +6/-4.
  angle: {
    name: 'EN 10056-2',
    bands: [
      [50, 1],
      [100, 2],
      [150, 3],
      [200, 4],
      [Infinity, 5],
    ],
  },
  tee: {
    name: 'EN 10055',
    bands: [
      [50, 1],
      [100, 1.5],
      [Infinity, 2],
    ],
  },
};

/**
 * Tell how true a rolled section's depth is.
 *
 * @param entry - Of the catalogue.
 * @returns Half the band of its standard; where the standard is not known, of EN 10034.
 */
export function sectionTolerance(entry: SectionEntry): SectionTolerance {
  const { name, depth, shape } = entry;
  // W and S shapes: 1/8 in either way.
  if (/^[WS]\d/.test(name)) {
    return { half: 3.175, source: 'rolled within 1/8 in, from memory of ASTM A6' };
  }
  const standard = standards[shape];
  const half = standard.bands.find(([most]) => depth <= most)?.[1] ?? 5;
  const stands = shape !== 'i' || /^(?:U[BC]|IPE|HE)/.test(name) ? '' : ', for want of its own';
  return { half, source: `rolled within ${half} mm, from memory of ${standard.name}${stands}` };
}
