import { blocks } from './blocks.js';
import { bonds } from './bonds/index.js';
import type { Bond } from './bonds/bond.js';
import { bricks } from './bricks.js';
import { nearNames } from './near-names.js';
import type { CourseEntry } from './course-entry.js';
import { type OwnReference, toCourseEntry } from './own-reference.js';
import { roofing } from './roofing.js';
import type { ScaleEntry } from './scale-entry.js';
import { scales } from './scales.js';
import type { SectionEntry } from './section-entry.js';
import { sections } from './sections.js';
import { type ItemEntry, sleepers, timber } from './timber.js';

/** What an entry is. */
export type CatalogueKind =
  'scale' | 'brick' | 'block' | 'bond' | 'roofing' | 'timber' | 'section' | 'sleeper';

/** One thing the catalogue holds. */
export interface CatalogueEntry {
  /** What it is. */
  readonly kind: CatalogueKind;
  /** What the other commands take: `uk-metric`, `N-UK`, `UB 203x133x25`. */
  readonly id: string;
  /** As people say it. */
  readonly name: string;
  /** Its sizes in mm, each by its trade word, all above 0; a scale's is its millimetres to the foot. */
  readonly sizesMm: Readonly<Record<string, number>>;
  /** Real over model for a scale, else null. */
  readonly ratio: number | null;
  /** Where it comes from. */
  readonly source: string;
  /** Whether the user keeps it, and not the catalogue. */
  readonly own: boolean;
}

/** An entry and the words that find it. */
interface Searchable {
  readonly entry: CatalogueEntry;
  readonly words: readonly string[];
}

/**
 * Search everything the catalogue holds.
 *
 * @param query - Words that an entry must all have, in any case; everything by default. Part of a
 *   word will do from three letters up (`203x133`, `slates`); where nothing has them, words a slip
 *   of the finger away will (`flemsh`).
 * @param own - References beside the catalogue's; the word `own` finds them.
 * @returns The entries: those first, then scales, then masonry, roofs, timber and steel.
 */
export function searchCatalogue(
  query = '',
  own: readonly OwnReference[] = [],
): readonly CatalogueEntry[] {
  const wanted = query.split(/\s+/).filter(Boolean).slice(0, 10).map(plain);
  const all = [...own.map(ofOwn), ...everything()];
  const found = all.filter(({ words }) => wanted.every((word) => isAmong(words, word)));
  const near = found.length > 0 ? found : all.filter(({ words }) => isNear(words, wanted));
  return near.map(({ entry }) => entry);
}

function isAmong(words: readonly string[], wanted: string): boolean {
  if (wanted.length < 3) return wanted !== '' && words.includes(wanted);
  const single = wanted.replace(/s$/, '');
  return words.some((word) => word.includes(wanted) || word.includes(single));
}

function isNear(words: readonly string[], wanted: readonly string[]): boolean {
  return wanted.every((word) => word.length > 3 && nearNames(word, words).length > 0);
}

function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/×/g, 'x')
    .replace(/[^a-z0-9.:/-]/g, '');
}

function searchable(found: Omit<CatalogueEntry, 'own'>, alsoCalled: readonly string[]): Searchable {
  const entry: CatalogueEntry = { ...found, own: false };
  const texts = [entry.kind, entry.id, entry.name, ...alsoCalled].join(' ').split(/[\s,]+/);
  const whole = texts.map(plain);
  const joined = plain(entry.name).replace(/[-/]/g, '');
  return { entry, words: [...whole, ...whole.flatMap((text) => text.split('-')), joined] };
}

function everything(): readonly Searchable[] {
  return [
    ...scales.map(ofScale),
    ...[...bricks, ...blocks].map(ofCourse),
    ...bonds.map(ofBond),
    ...[...roofing, ...timber].map(ofCourse),
    ...sleepers.map(ofItem),
    ...sections.map(ofSection),
  ];
}

function ofScale(scale: ScaleEntry): Searchable {
  const { name: id, ratio, region, definition, gaugeMm, source } = scale;
  const called = scale.short[0] ?? scale.inRegion[0] ?? id;
  const name = [
    region === null ? called : `${called} (${region})`,
    ...(definition.startsWith('1:') ? [] : [definition]),
  ].join(', ');
  const sizesMm = known({ foot: 304.8 / ratio, gauge: gaugeMm });
  const spelt = [...scale.short, ...scale.inRegion];
  // People look for the letter under the digit as well, and for the ratio.
  const alsoCalled = spelt.flatMap((short) => [short, short.replace(/O/g, '0')]);
  const words = [...alsoCalled, `1:${Number(ratio.toFixed(4))}`];
  return searchable({ kind: 'scale', id, name, sizesMm, ratio, source }, words);
}

function ofCourse(entry: CourseEntry): Searchable {
  const { kind, id, name, course, unit, joint, stretcher, header, source } = entry;
  const [length, width, height] = unit ?? [null, null, null];
  const sizesMm = known({ course, stretcher, header, joint, length, width, height });
  return searchable({ kind, id, name, sizesMm, ratio: null, source }, entry.alsoCalled);
}

function ofOwn(own: OwnReference): Searchable {
  const { length, width } = own;
  const { entry, words } = ofCourse({ ...toCourseEntry(own), alsoCalled: ['own'] });
  const sizesMm = { ...entry.sizesMm, ...known({ length, width }) };
  return { entry: { ...entry, sizesMm, own: true }, words };
}

function ofBond({ id, name, source }: Bond): Searchable {
  return searchable({ kind: 'bond', id, name, sizesMm: {}, ratio: null, source }, []);
}

function ofItem({ id, name, sizes, source }: ItemEntry): Searchable {
  const [length, width, height] = sizes;
  const sizesMm = { length, width, height };
  return searchable({ kind: 'sleeper', id, name, sizesMm, ratio: null, source }, []);
}

function ofSection(entry: SectionEntry): Searchable {
  const { name, depth, width, web, flange, root, source } = entry;
  const sizesMm = known({ depth, width, web, flange, root });
  return searchable({ kind: 'section', id: name, name, sizesMm, ratio: null, source }, []);
}

function known(sizes: Readonly<Record<string, number | null>>): Readonly<Record<string, number>> {
  return Object.fromEntries(
    Object.entries(sizes).filter((size): size is [string, number] => size[1] !== null),
  );
}
