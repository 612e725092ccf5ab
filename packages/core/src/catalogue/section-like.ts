import type { SectionEntry } from './section-entry.js';
import { sections } from './sections.js';

// So much deeper or shallower than any, another's proportions say nothing.
const farthest = 1.5;
// Of those about as deep, the lightest is a beam: a column's flanges, or an old beam's, are twice as thick.
const about = 1.05;

/**
 * Find a rolled section about as deep, to lend its proportions to one of which the depth alone is known.
 *
 * @param shape - Its kind.
 * @param depth - Over its flanges, mm.
 * @returns The lightest of those about as deep, else the nearest; null where none is of that kind, or near.
 */
export function sectionLike(shape: string, depth: number): SectionEntry | null {
  const near = sections
    .filter((entry) => entry.shape === shape)
    .map((entry) => ({ entry, off: Math.max(entry.depth / depth, depth / entry.depth) }))
    .filter(({ off }) => off <= farthest);
  const [lightest] = near
    .filter(({ off }) => off <= about)
    .sort((a, b) => a.entry.kgPerM - b.entry.kgPerM);
  const [nearest] = near.sort((a, b) => a.off - b.off || a.entry.kgPerM - b.entry.kgPerM);
  return (lightest ?? nearest)?.entry ?? null;
}
