import type { SectionEntry } from './section-entry.js';
import { sections } from './sections.js';

// So much deeper or shallower than any, another's proportions say nothing.
const farthest = 1.5;
// Columns, whose flanges are thicker than a beam's of one depth, are as wide as deep.
const beam = 1.2;

/**
 * Find the rolled section nearest in depth, to lend its proportions to one of which the depth alone is known.
 * Of I-sections, beams alone are looked at.
 *
 * @param shape - Its kind.
 * @param depth - Over its flanges, mm.
 * @returns The lightest of those nearest, or null where none is of that kind, or near.
 */
export function nearestSection(shape: string, depth: number): SectionEntry | null {
  const ofKind = sections.filter(
    (entry) => entry.shape === shape && (shape !== 'i' || entry.depth >= beam * entry.width),
  );
  const [nearest] = ofKind
    .map((entry) => ({ entry, off: Math.abs(Math.log(entry.depth / depth)) }))
    .sort((a, b) => a.off - b.off || a.entry.kgPerM - b.entry.kgPerM);
  return nearest !== undefined && nearest.off <= Math.log(farthest) ? nearest.entry : null;
}
