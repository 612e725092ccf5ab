import type { Bond } from '../../catalogue/bonds/bond.js';
import { toPattern } from './bond-pattern.js';
import { type BondFit, fitBond } from './fit-bond.js';
import type { CourseBands } from './fold-courses.js';
import { layAll, meanAgreement, windowLength } from './lay-bond.js';

/** Courses of a part that is looked at by itself. */
const partCourses = { share: 1 / 3, least: 6, most: 8 };
/** Stretchers of a part beside another. */
const leastStretchers = 6;
/** A part says something of which this share shows. */
const leastSeen = 0.6;
/** Where a bond agrees so much less than it does elsewhere, another may lie. */
const suspect = 0.9;
/** And does lie, where it agrees so much better. */
const better = 1.05;
/** No more parts than this are looked at closely. */
const mostParts = 3;
/** Bricks of both bonds are as long, or headers of the one are counted as its stretchers. */
const lengths = [1, 0.5, 2];
const mostApart = 0.03;

/** Two bonds in one wall. */
export interface TwoBonds {
  /** One. */
  readonly first: BondFit;
  /** The other. */
  readonly second: BondFit;
}

/** Tells of a bond whether it is what shows. */
export type IsClear = (bands: CourseBands, fit: BondFit) => boolean;

interface Part {
  readonly window: Window;
  readonly bands: CourseBands;
  /** How well the first bond agrees here. */
  readonly agreement: number;
}

/**
 * Find out whether a wall is laid in two bonds, one above or beside the other.
 *
 * @param bands - Perpends by course, over all of the wall.
 * @param course - Course height in samples of the bands.
 * @param known - The bond found in part of it, or null where none was found.
 * @param isClear - Tells of a bond whether it is what shows.
 * @returns Both, or null where all that shows may be one.
 */
export function tellBonds(
  bands: CourseBands,
  course: number,
  known: BondFit | null,
  isClear: IsClear,
): TwoBonds | null {
  const first = known ?? findAnywhere(bands, course, isClear);
  if (first === null) return null;
  const parts = listParts(bands, first.stretcher, 1).map((part) => ({
    ...part,
    agreement: agreementOf(part.bands, first),
  }));
  for (const part of listSuspects(parts)) {
    const second = findOther(part, course, first, isClear);
    if (second !== null) return { first, second };
  }
  return null;
}

// Those where it agrees least, and that do not lie half in one another.
function listSuspects(parts: readonly Part[]): Part[] {
  const usual = Math.max(...parts.map(({ agreement }) => agreement));
  const suspects: Part[] = [];
  for (const part of parts.toSorted((a, b) => a.agreement - b.agreement)) {
    if (part.agreement >= suspect * usual || suspects.length === mostParts) break;
    if (suspects.every((other) => !isHalfIn(part.window, other.window))) suspects.push(part);
  }
  return suspects;
}

function isHalfIn(a: Window, b: Window): boolean {
  const courses = Math.min(a.first + a.courses, b.first + b.courses) - Math.max(a.first, b.first);
  const length = Math.min(a.from + a.length, b.from + b.length) - Math.max(a.from, b.from);
  const shared = Math.max(0, courses) * Math.max(0, length);
  return shared > 0.5 * Math.min(a.courses * a.length, b.courses * b.length);
}

function findAnywhere(bands: CourseBands, course: number, isClear: IsClear): BondFit | null {
  const parts = listParts(bands, 3 * course, partCourses.least / 2);
  // Either end of the wall first, both ways.
  const ends = [...parts.slice(0, mostParts), ...parts.slice(-mostParts)];
  for (const { bands: part } of ends) {
    const fit = fitBond(part, course).find((each) => isClear(part, each));
    if (fit) return fit;
  }
  return null;
}

function findOther(part: Part, course: number, first: BondFit, isClear: IsClear): BondFit | null {
  const { bands, agreement } = part;
  if (isClear(bands, { ...first, agreement })) return null;
  const near = lengths.map((times) => times * first.stretcher);
  const [second] = fitBond(bands, course, { near, within: mostApart });
  if (!second || second.agreement < better * agreement || isSame(first, second)) return null;
  return isClear(bands, second) ? second : null;
}

// Stretchers half as long are headers.
function isSame(a: BondFit, b: BondFit): boolean {
  return idOf(a.bond) === idOf(b.bond) && Math.abs(Math.log(a.stretcher / b.stretcher)) < 0.3;
}

const idOf = ({ id }: Bond): string => id;

function agreementOf(bands: CourseBands, { bond, stretcher }: BondFit): number {
  return meanAgreement(layAll(bands, toPattern(bond), stretcher, windowLength * stretcher));
}

// Some courses from side to side, and all courses of some part of their length.
function listParts(
  bands: CourseBands,
  stretcher: number,
  step: number,
): Pick<Part, 'window' | 'bands'>[] {
  const { share, least, most } = partCourses;
  const courses = Math.round(Math.min(most, Math.max(least, share * bands.courses)));
  const length = Math.round(Math.max(leastStretchers * stretcher, bands.length / 3));
  const rows = listStarts(bands.courses, courses, step).map((first) => ({
    ...{ first, courses, from: 0, length: bands.length },
  }));
  const columns = listStarts(bands.length, length, length / 4).map((from) => ({
    ...{ first: 0, courses: bands.courses, from, length },
  }));
  return [...rows, ...columns]
    .map((window) => ({ window, bands: cut(bands, window) }))
    .filter(({ bands: { seen } }) => countSeen(seen) >= leastSeen * seen.length);
}

function countSeen(seen: Uint8Array): number {
  let count = 0;
  for (const shows of seen) count += shows;
  return count;
}

// From end to end.
function listStarts(all: number, part: number, step: number): number[] {
  if (all < 1.5 * part) return [];
  const steps = Math.ceil((all - part) / step);
  return Array.from({ length: steps + 1 }, (_, i) => Math.round((i * (all - part)) / steps));
}

interface Window {
  readonly first: number;
  readonly courses: number;
  readonly from: number;
  readonly length: number;
}

function cut(bands: CourseBands, { first, courses, from, length }: Window): CourseBands {
  const line = new Float32Array(courses * length);
  const seen = new Uint8Array(courses * length);
  for (let k = 0; k < courses; k++) {
    const start = (first + k) * bands.length + from;
    line.set(bands.line.subarray(start, start + length), k * length);
    seen.set(bands.seen.subarray(start, start + length), k * length);
  }
  return { courses, length, step: bands.step, left: bands.left + from * bands.step, line, seen };
}
