import type { SectionEntry } from './section-entry.js';

/** How far a rolled section's depth may be off. */
export interface SectionTolerance {
  /** Half the band its depth may lie in, mm. */
  readonly half: number;
  /** Where that comes from. */
  readonly source: string;
}

// Depth up to so many mm, and half the band: +3/-2, +4/-2, +5/-3, +5/-5.
const bands = [
  [180, 2.5],
  [400, 3],
  [700, 4],
  [Infinity, 5],
] as const;

/**
 * Tell how true a rolled section's depth is.
 *
 * @param entry - Of the catalogue.
 * @returns Half the band of its standard; where the standard is not known, of EN 10034.
 */
export function sectionTolerance(entry: SectionEntry): SectionTolerance {
  const { name, depth } = entry;
  // W and S shapes: 1/8 in either way.
  if (/^[WS]\d/.test(name)) {
    return { half: 3.175, source: 'rolled within 1/8 in, from memory of ASTM A6' };
  }
  const half = bands.find(([most]) => depth <= most)?.[1] ?? 5;
  const stands = /^(?:U[BC]|IPE|HE)/.test(name) ? '' : ', for want of its own';
  return { half, source: `rolled within ${half} mm, from memory of EN 10034${stands}` };
}
