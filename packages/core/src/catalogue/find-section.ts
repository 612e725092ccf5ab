import { outOfRange } from '../errors/out-of-range.js';
import type { Reference } from '../surface/measurement.js';
import { type RealMm, realMm } from '../units/units.js';
import { nearNames } from './near-names.js';
import type { SectionEntry } from './section-entry.js';
import { sectionTolerance } from './section-tolerance.js';
import { sections } from './sections.js';

/** A rolled section to hold against a picture: its `size` is its depth over the flanges, or an angle's longer leg. */
export interface SectionReference extends Reference {
  /** What kind it is. */
  readonly shape: SectionEntry['shape'];
  /** Width of the flange, or of an angle's shorter leg. */
  readonly width: RealMm;
  /** Thickness of the web or the stem; null of an angle. */
  readonly web: RealMm | null;
  /** Thickness of the flange, or of a leg; of a taper flange, its mean. */
  readonly flange: RealMm;
  /** Radius between web and flange, or null where the source gives none. */
  readonly root: RealMm | null;
  /** Mass of one metre, kg, as published. */
  readonly kgPerM: number;
  /** Whether the flange's inner faces are parallel to its outer ones. */
  readonly flanges: 'parallel' | 'taper';
}

/**
 * Find a rolled section.
 *
 * @param text - Its name, with or without its kind: `UB 203x133x25`, `203×133×25`, `ipe300`,
 *   `HE 200 A` or `HEA 200`, `W8x31`.
 * @param name - What the section is for, as the user knows it.
 * @returns Its depth as a reference, and its other sizes.
 * @throws RangeError when there is none of that name, or several; names near it are in the message.
 */
export function findSection(text: string, name = 'section'): SectionReference {
  const wanted = plain(text);
  const whole = sections.filter((entry) => plain(entry.name) === wanted);
  const found = whole.length > 0 ? whole : sections.filter((entry) => sizesOf(entry) === wanted);
  const [first, ...others] = found;
  if (first === undefined) {
    const near = nearNames(
      wanted,
      sections.map((entry) => entry.name),
    );
    const meant = near.length > 0 ? ` (${near.join(', ')}?)` : ' such as UB 203x133x25';
    throw outOfRange(`the name of a rolled section${meant}`, name, text);
  }
  if (others.length > 0) {
    throw outOfRange(`one of ${found.map((entry) => entry.name).join(', ')}`, name, text);
  }
  return toReference(first);
}

function toReference(entry: SectionEntry): SectionReference {
  const { shape, depth, width, web, flange, root, kgPerM, flanges } = entry;
  const tolerance = sectionTolerance(entry);
  return {
    id: entry.name.toLowerCase().replace(/ /g, '-'),
    name: entry.name,
    size: realMm(depth),
    // Anywhere in the band alike: JCGM 100:2008 (GUM), 4.3.7.
    uncertainty: tolerance.half / Math.sqrt(3) / depth,
    source: `${entry.source}; ${tolerance.source}`,
    shape,
    width: realMm(width),
    web: web === null ? null : realMm(web),
    flange: realMm(flange),
    root: root === null ? null : realMm(root),
    kgPerM,
    flanges,
  };
}

function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[×*]/g, 'x')
    .replace(/[\s_-]+/g, '')
    .replace(/^he([abm])(\d+)$/, 'he$2$1');
}

function sizesOf({ name }: SectionEntry): string {
  return plain(name).replace(/^[a-z]+(?=\d)/, '');
}
