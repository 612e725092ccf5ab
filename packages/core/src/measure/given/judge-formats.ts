import { blocks } from '../../catalogue/blocks.js';
import { bondRepeat } from '../../catalogue/bond-repeat.js';
import type { Bond } from '../../catalogue/bonds/bond.js';
import { bonds } from '../../catalogue/bonds/index.js';
import { bricks } from '../../catalogue/bricks.js';
import type { CourseEntry } from '../../catalogue/course-entry.js';
import { type CourseReference, toCourseReference } from '../../catalogue/course-reference.js';
import { type FormatRegion, regionOf } from '../../catalogue/region-of.js';
import { roofing } from '../../catalogue/roofing.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { type RealMm, realMm } from '../../units/units.js';
import { toPattern } from '../bricks/bond-pattern.js';

/** What a picture shows of the shape of its bricks: no reference is needed for it. */
export interface CoursedShape {
  /** Length of a brick with its joint over the height of a course. */
  readonly courses: number;
  /** Standard uncertainty (k = 1) of `courses`, as a fraction. */
  readonly uncertainty: number;
  /** The bond's catalogue id. */
  readonly bond: string;
}

/** A format, and how likely it is. */
export interface LikelyFormat {
  /** Of the catalogue, or beside it. */
  readonly reference: CourseReference;
  /** 0 to 1, given that the courses and the bricks were found rightly. */
  readonly probability: number;
}

/** What formats a shape can be. */
export interface FormatJudgement {
  /** Those of 1 in 100 or more, likeliest first; those that are tied in order, one's own before the catalogue's. */
  readonly formats: readonly LikelyFormat[];
  /** Probability that it is none of the catalogue. */
  readonly other: number;
  /** Ids of the likeliest, where there are two or more that the shape does not tell apart. */
  readonly tied: readonly string[];
  /** The bond's catalogue id: a wall of headers looks like stretcher bond of short bricks. */
  readonly bond: string;
}

/** What {@link judgeFormats} may be told. */
export interface JudgeFormatsOptions {
  /** Where the wall stands: nine in ten walls are then of that region's formats. */
  readonly region?: FormatRegion;
  /**
   * References beside the catalogue's: each as likely as one of it, wherever the wall stands. Those of which
   * no brick is known have no shape.
   */
  readonly own?: readonly CourseReference[];
}

/** Share of walls that are of no format in the catalogue (common practice, no source). */
const strangers = 0.1;
/** Brick over course of those: anything alike between a square and a plank, as ln(7). */
const strangersRange = Math.log(7);
/** Share of walls in stretcher bond's pattern that show headers only (common practice, no source). */
const headersOnly = 0.2;
/** Share of walls that are of the formats of the region they stand in, where that is told. */
const atHome = 0.9;
/**
 * How far a delivery's bricks may be from their size: 0.40 times the root of 215 mm for the mean of
 * category T1 (BS EN 771-1), anywhere in that band alike (JCGM 100:2008, 4.3.7).
 */
const toSize = (0.4 * Math.sqrt(215)) / Math.sqrt(3) / 215;
/** A stretcher is two headers and a joint; further off, bonds of both do not close. */
const mostUnclosed = 0.03;
/** Formats less likely than this are left out. */
const leastProbability = 0.01;
/** The likeliest and those not less likely than this share of it are alike. */
const tie = 0.7;

interface Candidate {
  readonly reference: CourseReference;
  /** Null of those beside the catalogue. */
  readonly kind: CourseEntry['kind'] | null;
  readonly region: FormatRegion | null;
  readonly stretcher: RealMm;
  readonly header: RealMm | null;
}

const ofCatalogue: readonly Candidate[] = [...bricks, ...blocks, ...roofing].flatMap((entry) => {
  const reference = toCourseReference(entry);
  const { id, kind } = entry;
  return reference.brick === null
    ? []
    : [{ reference, kind, region: regionOf(id), ...reference.brick }];
});

// What one has measured is likelier what one sees than what is as likely by its shape, and comes first.
function listCandidates(own: readonly CourseReference[]): readonly Candidate[] {
  const known = new Set(ofCatalogue.map(({ reference: { id } }) => id));
  const mine = own.flatMap((reference) => {
    const { brick, id } = reference;
    if (brick === null || known.has(id)) return [];
    known.add(id);
    return [{ reference, kind: null, region: null, ...brick }];
  });
  return [...mine, ...ofCatalogue];
}

/**
 * Judge which of the catalogue's formats bricks of some shape can be. The shape alone often cannot
 * tell: four formats are exactly three courses long.
 *
 * @param shape - As measured.
 * @param options - What else is known.
 * @returns Formats with their probabilities; these and `other` sum to 1, but for those left out.
 * @throws RangeError when the shape's bond is not of the catalogue.
 */
export function judgeFormats(
  shape: CoursedShape,
  options: JudgeFormatsOptions = {},
): FormatJudgement {
  const bond = bonds.find(({ id }) => id === shape.bond);
  if (!bond) throw outOfRange('the id of a bond', 'bond', shape.bond);
  const candidates = listCandidates(options.own ?? []);
  const priors = toPriors(candidates, options.region);
  const weighed = candidates.map((candidate, i) => {
    const faces = weighFaces(candidate, shape, bond);
    return { candidate, faces, weight: priors[i]! * (faces.stretchers + faces.headers) };
  });
  const other = strangers / strangersRange;
  const total = weighed.reduce((sum, { weight }) => sum + weight, other);
  const formats = weighed
    .map(({ candidate: { reference }, weight }) => ({ reference, probability: weight / total }))
    .filter(({ probability }) => probability >= leastProbability)
    .sort((a, b) => b.probability - a.probability);
  const best = formats[0]?.probability ?? 0;
  const isTied = ({ probability }: LikelyFormat): boolean => probability >= tie * best;
  // Alike, they stay in their order: a hair's breadth prefers none.
  const order = new Map(candidates.map(({ reference }, i) => [reference.id, i]));
  const tied = formats
    .filter(isTied)
    .sort((a, b) => (order.get(a.reference.id) ?? 0) - (order.get(b.reference.id) ?? 0));
  return {
    formats: [...tied, ...formats.filter((format) => !isTied(format))],
    other: other / total,
    tied: tied.length > 1 ? tied.map(({ reference }) => reference.id) : [],
    bond: nameBond(shape, weighed),
  };
}

// Each format alike, or those of the region before the others.
function toPriors(
  candidates: readonly Candidate[],
  region: FormatRegion | undefined,
): readonly number[] {
  const isHome = candidates.map(({ kind, region: from }) => kind === null || from === region);
  const home = isHome.filter(Boolean).length;
  const away = candidates.length - home;
  return isHome.map((here) => {
    if (region === undefined) return (1 - strangers) / candidates.length;
    return (1 - strangers) * (here ? atHome / home : (1 - atHome) / away);
  });
}

interface Faces {
  readonly stretchers: number;
  readonly headers: number;
}

// How likely the shape is where the wall is of this format, by the faces that it shows.
function weighFaces(candidate: Candidate, shape: CoursedShape, bond: Bond): Faces {
  const { stretcher, header, kind } = candidate;
  const none = { stretchers: 0, headers: 0 };
  const isMixed = bond.courses.some(({ run }) => run.includes('header')) && bond.id !== 'header';
  if (isMixed) {
    if (header === null || kind === 'roofing') return none;
    return { stretchers: weighMixed(candidate, header, shape, bond), headers: 0 };
  }
  const isHalfLap = bond.id === 'stretcher' || bond.id === 'header';
  // Tiles and slates break joint by half, or lie one above the other.
  if (kind === 'roofing' && !isHalfLap && bond.id !== 'stack') return none;
  const asStretcher = weigh(candidate, stretcher, shape);
  if (!isHalfLap || header === null) return { stretchers: asStretcher, headers: 0 };
  return {
    stretchers: (1 - headersOnly) * asStretcher,
    headers: headersOnly * weigh(candidate, header, shape),
  };
}

// The bond's repeat measured in stretchers, a header taken as half of one.
function weighMixed(candidate: Candidate, header: RealMm, shape: CoursedShape, bond: Bond): number {
  const { stretcher, reference } = candidate;
  if (!(stretcher > header)) return 0;
  const repeat = bondRepeat(bond, { stretcher, header, course: reference.size });
  const unclosed = Math.log(stretcher / (2 * header)) / mostUnclosed;
  const length = realMm(repeat.x / toPattern(bond).repeat);
  return weigh(candidate, length, shape) * Math.exp(-0.5 * unclosed ** 2);
}

// Density of the shape's logarithm, normal about the format's.
function weigh({ reference }: Candidate, length: RealMm, shape: CoursedShape): number {
  const spread = Math.hypot(shape.uncertainty, reference.uncertainty, toSize);
  const apart = Math.log((shape.courses * reference.size) / length) / spread;
  return Math.exp(-0.5 * apart ** 2) / (spread * Math.sqrt(2 * Math.PI));
}

function nameBond({ bond }: CoursedShape, weighed: readonly { readonly faces: Faces }[]): string {
  if (bond !== 'stretcher' && bond !== 'header') return bond;
  const sum = (face: keyof Faces): number =>
    weighed.reduce((total, { faces }) => total + faces[face], 0);
  const [stretchers, headers] = [sum('stretchers'), sum('headers')];
  // A shape that no format has is called as it was.
  if (stretchers + headers < 1e-3) return bond;
  return headers > stretchers ? 'header' : 'stretcher';
}
