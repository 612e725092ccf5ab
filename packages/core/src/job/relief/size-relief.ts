import { sectionLike } from '../../catalogue/section-like.js';
import type { SectionEntry } from '../../catalogue/section-entry.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { BoundedArea } from '../../finish/relief/face-loops.js';
import { findProfile } from '../../finish/relief/parse-profile.js';
import type {
  Profile,
  ProfileId,
  SectionSizes,
  SizeName,
} from '../../finish/relief/profiles/profile.js';
import type { PerAxis } from '../../surface/measurement.js';
import { realMm } from '../../units/units.js';
import type { MakeReliefOptions, ReliefSizes } from './relief-options.js';

/** A shape of a drawing that a piece is to have, mm of paper. */
export interface DrawnShape {
  /** From its top left corner. */
  readonly area: BoundedArea;
  /** Of the rectangle round it. */
  readonly size: PerAxis<number>;
}

/** What a piece is, and how large. */
export interface SizedProfile {
  /** What it is. */
  readonly profile: Profile;
  /** Its sizes, mm of the real thing. */
  readonly sizes: SectionSizes;
  /** What says how deep it is, as the user knows it. */
  readonly sizedBy: string;
  /** The rolled section whose proportions say how thick its flange is, or null where that is told. */
  readonly like: SectionEntry | null;
}

const sizeNames = [
  ...(['width', 'web', 'flange', 'root', 'leg'] as const),
  ...(['board', 'rail', 'bar', 'block', 'rise'] as const),
] satisfies readonly SizeName[];

const none: Omit<SectionSizes, 'depth'> = {
  ...{ width: null, web: null, flange: null, root: null, leg: null },
  ...{ board: null, rail: null, bar: null, block: null, rise: null },
};

/**
 * Settle what a piece is: a section of the catalogue, a profile of own sizes, or a shape of a drawing.
 *
 * @param options - As the caller gave them.
 * @param shape - Of a drawing, or null.
 * @returns What it is, and how large.
 * @throws RangeError where sizes are missing, too many, or make no sense together.
 */
export function sizeRelief(options: MakeReliefOptions, shape: DrawnShape | null): SizedProfile {
  if (shape !== null) return { ...ofShape(options, shape), sizedBy: 'outline' };
  if (options.section) return { ...ofSection(options), sizedBy: 'section' };
  return { ...ofProfile(options), sizedBy: 'depth' };
}

/**
 * Bring sizes to paper.
 *
 * @param sizes - Of the real thing.
 * @param onPaper - From real mm to mm of paper.
 * @returns The same on paper.
 */
export function toPaper(sizes: SectionSizes, onPaper: (mm: number) => number): SectionSizes {
  return {
    ...eachSize((name) => {
      const mm = sizes[name];
      return mm === null ? null : onPaper(mm);
    }),
    depth: onPaper(sizes.depth),
  };
}

function eachSize(of: (name: SizeName) => number | null): Omit<SectionSizes, 'depth'> {
  return { ...none, ...Object.fromEntries(sizeNames.map((name) => [name, of(name)])) };
}

type Sized = Omit<SizedProfile, 'sizedBy'>;

function ofShape(options: MakeReliefOptions, { size }: DrawnShape): Sized {
  const { section, profile = 'panel', depth, scale } = options;
  if (section !== undefined) {
    throw outOfRange('no section beside an outline', 'section', section.name);
  }
  if (profile !== 'panel') {
    throw outOfRange('a panel, where it has an outline,', 'profile', profile);
  }
  if (depth !== undefined) {
    throw outOfRange('no depth beside an outline, which has its own,', 'depth', `${depth} mm`);
  }
  return ofProfile({ ...options, profile, depth: realMm(size.y * scale.ratio) });
}

function ofSection({ section, profile, ...own }: ReliefSizes): Sized {
  if (section === undefined) throw outOfRange('a section', 'section', section);
  if (profile !== undefined) throw outOfRange('no profile beside a section', 'profile', profile);
  const extra = (['depth', ...sizeNames] as const).find((name) => own[name] !== undefined);
  if (extra !== undefined) {
    throw outOfRange(`no ${extra} beside a section`, extra, `${own[extra] ?? 0} mm`);
  }
  const { shape, size: depth, width, web, flange, root } = section;
  const sizes = { ...none, depth, width, web, flange, root };
  return { profile: findProfile(shape), sizes, like: null };
}

function ofProfile({ profile: id, ...own }: ReliefSizes): Sized {
  if (id === undefined) throw outOfRange('a section, or a profile and its sizes,', 'section', id);
  const profile = findProfile(id);
  const { needs, takes, name, usual = {} } = profile;
  const { depth } = own;
  if (depth === undefined) throw outOfRange(`the depth of ${article(name)}`, 'depth', undefined);
  const like = own.flange === undefined ? sectionLike(id, depth) : null;
  const known = { ...usual, ...(like && { flange: (like.flange * depth) / like.depth }) };
  for (const need of needs) {
    if (own[need] !== undefined || known[need] !== undefined) continue;
    throw outOfRange(`the ${wordOf(need)} of ${article(name)}`, need, undefined);
  }
  const extra = sizeNames.find(
    (size) => own[size] !== undefined && !needs.includes(size) && !takes.includes(size),
  );
  if (extra !== undefined) {
    throw outOfRange(`none for ${article(name)}`, extra, `${own[extra] ?? 0} mm`);
  }
  const sizes = { ...eachSize((size) => own[size] ?? known[size] ?? null), depth };
  checkSizes(sizes, profile);
  return { profile, sizes, like };
}

const words = new Map<string, string>([
  ['flange', 'thickness of the flange'],
  ['leg', 'depth of the angles’ legs'],
]);

function wordOf(size: string): string {
  return words.get(size) ?? size;
}

function article(name: string): string {
  return `${/^[iaou]/i.test(name) ? 'an' : 'a'} ${name}`;
}

// Kinds with a flange at one side alone.
const oneSided: readonly ProfileId[] = ['angle', 'tee'];

function checkSizes(sizes: SectionSizes, { id, takes }: Profile): void {
  const { depth, width, web, flange, root, leg, board, block } = sizes;
  if (width !== null && web === null && takes.includes('web')) {
    throw outOfRange('the thickness of the web, beside a width,', 'web', undefined);
  }
  const below = (name: string, size: number | null, most: number, what: string): void => {
    if (size === null || size < most) return;
    throw outOfRange(`less than ${Number(most.toPrecision(6))} mm, ${what},`, name, `${size} mm`);
  };
  below('board', board, depth * (1 + 1e-9), 'the depth');
  below('block', block, depth * (1 + 1e-9), 'the depth');
  below('web', web, width ?? Infinity, 'the width');
  below('flange', flange, width ?? Infinity, 'the width');
  if (oneSided.includes(id)) {
    below('flange', flange, depth, 'the depth');
    below('root', root, depth - (flange ?? 0), 'what the flange leaves of the depth');
    return;
  }
  below('flange', flange, depth / 2, 'half the depth');
  const clear = depth / 2 - (flange ?? 0);
  below('root', root, clear, 'half of what lies between the flanges');
  below('leg', leg, clear, 'half of what lies between the flanges');
}
