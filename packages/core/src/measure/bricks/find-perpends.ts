import type { Bond } from '../../catalogue/bonds/bond.js';
import type { Raster } from '../../raster/raster.js';
import { toPattern } from './bond-pattern.js';
import { type BondFit, fitBond } from './fit-bond.js';
import { type CourseBands, foldCourses } from './fold-courses.js';
import type { View } from '../joints/fold-rows.js';
import { judgeBond, type Judgement } from './judge-bond.js';
import { layAll, meanAgreement, windowLength } from './lay-bond.js';
import { leanBands } from './lean-bands.js';
import type { FoundBond } from './place-perpends.js';
import type { CourseMask } from '../joints/mask-courses.js';
import type { PlacedJoints } from '../joints/place-joints.js';
import { refineStretcher } from './refine-stretcher.js';
import { type Mortar, showMortar } from './show-mortar.js';
import { tellBonds } from './tell-bonds.js';
import { type CourseLines, traceLines } from './trace-lines.js';

/** What lies along the courses. */
export interface Perpends {
  /** One brick with its joint, px, or null where none was found. */
  readonly brick: number | null;
  /** Where the joints repeat along a course, px, or null. */
  readonly repeat: number | null;
  /** In how many courses they repeat, or null. */
  readonly courses: number | null;
  /** The bond's catalogue id, or null. */
  readonly bond: string | null;
  /** How that bond was laid, for a list of its perpends, or null. */
  readonly laid: FoundBond | null;
  /** The ids of the two bonds it is laid in, where it is, and no bond then stands for all. */
  readonly two: readonly [string, string] | null;
}

/** Bed joints, and how they show. */
export interface SeenJoints {
  /** Where they lie. */
  readonly placed: PlacedJoints;
  /** In which view of the picture. */
  readonly view: View;
  /** Where their courses show; everywhere unless told. */
  readonly mask?: CourseMask;
  /** About how long a brick is, px, where that was seen before, or null. */
  readonly near: number | null;
}

const none: Perpends = {
  brick: null,
  repeat: null,
  courses: null,
  bond: null,
  laid: null,
  two: null,
};

/** Under this the perpends that a bond foretells are not the ones that show. */
const leastAgreement = 0.3;
/** Of the perpends that a bond foretells, even the one that shows least must show so much. */
const leastTooth = 0.8;
/** The same of each course in which it foretells any. */
const leastCourse = 0.55;
/** Share of the perpends foretold that must show. */
const leastMet = 0.8;
/** No line that it does not foretell may show so much. */
const mostIntruder = 0.55;
/** How far perpends stand out from what else there is. */
const leastContrast = 0.22;
/** Courses in which every tile shows its edge, whatever else a tile shows. */
const everyCourse = 0.9;
/** Fewer perpends lie in some pattern or other. */
const fewest = 6;
/** So few perpends may lie in a pattern by chance, unless they agree with it this much. */
const few = 40;
const leastOfFew = 0.5;
/** How far perpends may lean, in courses for each course. */
const leans = [-0.045, -0.03, -0.015, 0.015, 0.03, 0.045];
/** They do lean where a bond agrees so much better. */
const leaner = 1.1;
/** Where no bond agrees even this much, no two do. */
const leastOfTwo = 0.15;
/** How far a brick's length may move when a wall is made level anew, as a fraction. */
const mostMoved = 0.03;
/** Above this, there is no need to look in another way. */
const certain = 0.45;
/** A brick shorter than this many courses shows its header. */
const longestHeader = 1.75;

// What the best of so many lengths, bonds and places would reach where perpends lie anyhow: the
// largest of some thousand correlations over so many independent places.
function reachOfChance(bands: CourseBands, course: number): number {
  const seen = bands.seen.reduce((sum, shows) => sum + shows, 0);
  const places = (seen * bands.step) / (0.15 * course);
  return Math.sqrt((2 * Math.log(5000)) / places);
}

function repeatOf(bond: Bond): number {
  const runs = bond.courses.map(({ run }) =>
    run.reduce((sum, face) => sum + (face === 'stretcher' ? 1 : 0.5), 0),
  );
  return Math.max(...runs);
}

function nameBond({ id }: Bond, brick: number, course: number): string {
  return id === 'stretcher' && brick < longestHeader * course ? 'header' : id;
}

interface Look {
  readonly bands: CourseBands;
  readonly mortar: Mortar;
  readonly view: View;
}

interface Laid extends Look {
  readonly fit: BondFit;
}

// Whether the mortar of the perpends is dark or light is left open: light beds may show as dark
// edges, where the sun stands high. Beside every true line two faint ones of the other kind show, so
// the kind with less in all comes first.
function listLooks(raster: Raster, { placed, mask }: SeenJoints, view: View): Look[] {
  const lines = foldCourses(traceLines(raster, placed, { view, ...(mask && { mask }) }), mask);
  const looks = ([1, -1] as const).map((mortar) => {
    const bands = showMortar(lines, mortar);
    return { bands, mortar, view, power: bands.line.reduce((sum, line) => sum + line * line, 0) };
  });
  return looks.sort((a, b) => a.power - b.power);
}

function layOn(look: Look, course: number, near: number | null = null): Laid[] {
  const { step } = look.bands;
  const lengths = near === null ? undefined : { near: [near / step], within: mostMoved };
  return fitBond(look.bands, course / step, lengths).map((fit) => ({ ...look, fit }));
}

// Straightened by its beds alone a wall may be left leaning, which many courses do not forgive.
function layLeaning(laid: readonly Laid[], { placed }: SeenJoints): Laid[] {
  const best = new Map<CourseBands, Laid>();
  for (const each of laid) {
    const other = best.get(each.bands);
    if (!other || each.fit.agreement > other.fit.agreement) best.set(each.bands, each);
  }
  const found: Laid[] = [];
  for (const each of best.values()) {
    const { bands, fit } = each;
    const pattern = toPattern(fit.bond);
    let most = leaner * fit.agreement;
    let upright: CourseBands | null = null;
    for (const lean of leans) {
      const leaning = leanBands(bands, (lean * placed.course) / bands.step);
      const lays = layAll(leaning, pattern, fit.stretcher, windowLength * fit.stretcher);
      const agreement = meanAgreement(lays);
      if (agreement > most) [most, upright] = [agreement, leaning];
    }
    if (upright !== null) found.push(...layOn({ ...each, bands: upright }, placed.course));
  }
  return found;
}

function isClear(agreement: number, judgement: Judgement): boolean {
  const { count, met, shown, elsewhere } = judgement;
  return (
    count >= fewest &&
    met >= leastMet &&
    agreement >= (count < few ? leastOfFew : leastAgreement) &&
    shown - elsewhere >= leastContrast &&
    judgement.leastTooth >= leastTooth &&
    judgement.leastCourse >= leastCourse
  );
}

// Three stretcher courses to one of headers, or five? Only the next course of headers tells.
function isSeenTwice({ courses }: Bond, bands: CourseBands): boolean {
  const headers = courses.filter(({ run }) => run.includes('header')).length;
  return courses.length <= 2 || headers !== 1 || bands.courses >= 2 * courses.length - 1;
}

/**
 * Find the perpends between bed joints: how long a brick is, and in which bond they lie.
 *
 * @param raster - The picture.
 * @param bed - Its bed joints.
 * @returns What was found; all null where the perpends follow no bond.
 */
export function findPerpends(raster: Raster, bed: SeenJoints): Perpends {
  const laid: Laid[] = [];
  for (const look of listLooks(raster, bed, bed.view)) {
    laid.push(...layOn(look, bed.placed.course, bed.near));
    const first = choose(laid, bed);
    if (first !== null && first.fit.agreement >= certain) return toPerpends(raster, first, bed);
  }
  if (bed.near !== null) return findPerpends(raster, { ...bed, near: null });
  // A shadow may show beds that are as light as their bricks; perpends cast none.
  const looks = listLooks(raster, bed, bed.view === 'lightness' ? 'warmth' : 'lightness');
  laid.push(...looks.flatMap((look) => layOn(look, bed.placed.course)));
  const second = choose(laid, bed);
  if (second !== null) return toPerpends(raster, second, bed);
  laid.push(...layLeaning(laid, bed));
  const found = choose(laid, bed);
  return found === null ? lookInParts(raster, laid[0], bed) : toPerpends(raster, found, bed);
}

// Two bonds may pass for none.
function lookInParts(raster: Raster, best: Laid | undefined, bed: SeenJoints): Perpends {
  if (best === undefined || best.fit.agreement < leastOfTwo) return none;
  const lines = traceLines(raster, bed.placed, { view: best.view, extent: 'all' });
  return { ...none, two: findTwo(lines, { look: best, known: null }, bed) };
}

function findTwo(
  lines: CourseLines,
  { look, known }: { readonly look: Look; readonly known: BondFit | null },
  { placed, mask }: SeenJoints,
): readonly [string, string] | null {
  const bands = showMortar(foldCourses(lines, mask), look.mortar);
  const course = placed.course / bands.step;
  const bonds = tellBonds(bands, course, known, (part, fit) => isAlone(part, fit, placed.course));
  if (bonds === null) return null;
  const name = ({ bond, stretcher }: BondFit): string => nameBond(bond, stretcher, course);
  return [name(bonds.first), name(bonds.second)];
}

function isAlone(bands: CourseBands, fit: BondFit, course: number): boolean {
  if (fit.agreement < leastAgreement) return false;
  if (fit.agreement < 1.25 * reachOfChance(bands, course)) return false;
  const judgement = judgeBond(bands, fit);
  return (
    isClear(fit.agreement, judgement) &&
    judgement.intruder <= mostIntruder &&
    isSeenTwice(fit.bond, bands)
  );
}

interface Chosen extends Laid {
  /** Whether no other lines show. */
  readonly plain: boolean;
}

function choose(laid: Laid[], { placed }: SeenJoints): Chosen | null {
  laid.sort((a, b) => b.fit.agreement - a.fit.agreement);
  for (const each of laid) {
    const { bands, fit } = each;
    const { agreement, bond } = fit;
    if (agreement < leastAgreement) break;
    if (agreement < 1.25 * reachOfChance(bands, placed.course)) continue;
    const judgement = judgeBond(bands, fit);
    if (!isClear(agreement, judgement)) continue;
    if (!isSeenTwice(bond, bands)) return null;
    const plain = judgement.intruder <= mostIntruder;
    const stacked = bond.id === 'stack' && judgement.leastCourse >= everyCourse;
    if (plain || stacked) return { ...each, plain };
  }
  return null;
}

function toPerpends(raster: Raster, chosen: Chosen, bed: SeenJoints): Perpends {
  const { bands, mortar, view, fit } = chosen;
  const { bond } = fit;
  const stretcher = refineStretcher(bands, fit);
  const length = stretcher * bands.step;
  const repeat = length * repeatOf(bond);
  const courses = bond.courses.length;
  // Shaped tiles, one above the other, have more edges than those where they part.
  if (!chosen.plain) return { ...none, repeat, courses };
  const lines = traceLines(raster, bed.placed, { view, extent: 'all' });
  const laid = { fit: { ...fit, stretcher }, mortar, lines };
  const two = findTwo(lines, { look: chosen, known: laid.fit }, bed);
  if (two !== null) return { ...none, brick: length, laid, two };
  const name = nameBond(bond, length, bed.placed.course);
  return { brick: length, repeat, courses, bond: name, laid, two };
}
