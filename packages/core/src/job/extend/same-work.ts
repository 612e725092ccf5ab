import { bonds } from '../../catalogue/bonds/index.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { Lattice } from '../../surface/measurement.js';
import { px } from '../../units/units.js';
import type { KnownSource } from '../open/open-source.js';

/** Why photos are not of one wall. */
export type WorkRefusal = 'bonds-differ' | 'courses-differ' | 'same-photo';

// Courses of one wall differ by less, as a fraction: a format's tolerance and two measurements'.
const sameCourse = 0.03;
// Bricks of one wall are as many courses long to within this, as a fraction.
const sameBrick = 0.1;

/** A source that agrees with all the others. */
export interface AgreedSource extends KnownSource {
  /** The photo whose bond it is taken to show, for its own could not be told; null where nothing is lent. */
  readonly bondFrom: string | null;
}

/**
 * Make sure that photos show one kind of work: courses of one height that lie one way, in one bond.
 *
 * @param sources - Measured, where there are several.
 * @returns The same; where the bond could be told in some only, it is lent to the others.
 */
export function sameWork(
  sources: readonly KnownSource[],
): Outcome<readonly AgreedSource[], WorkRefusal> {
  const [first] = sources;
  if (first === undefined) return { ok: true, value: [], warnings: [] };
  for (const [at, other] of sources.entries()) {
    const before = sources.slice(0, at).find(({ sha256 }) => sha256 === other.sha256);
    if (before !== undefined) return refuseTwice(before, other);
  }
  for (const other of sources.slice(1)) {
    const unlike = unlikeCourses(first, other);
    if (unlike !== null) return refuse('courses-differ', unlike);
  }
  const told = sources.filter(({ lattice }) => lattice !== null && lattice.bond !== null);
  const [known] = told;
  const other = told.find(({ lattice }) => lattice?.bond !== known?.lattice?.bond);
  if (known?.lattice && other?.lattice) {
    return refuse(
      'bonds-differ',
      `${showPath(known.path)} is laid in ${nameOf(known.lattice)}, ${showPath(other.path)} in ${nameOf(other.lattice)}`,
    );
  }
  const value = sources.map((source) => lend(source, known));
  return { ok: true, value, warnings: warnOfBricks(sources) };
}

// It makes nothing new, and its marks come again sooner.
function refuseTwice(one: KnownSource, other: KnownSource): Outcome<never, 'same-photo'> {
  const message = `${showPath(one.path)} and ${showPath(other.path)} are one picture`;
  return { ok: false, code: 'same-photo', message, hint: 'give each photo once' };
}

// Courses may be of one height because the user said so of all.
function warnOfBricks(sources: readonly KnownSource[]): readonly Warning[] {
  const long = sources.flatMap((source) => {
    const courses = coursesToBrick(source);
    return courses === null ? [] : [{ path: showPath(source.path), courses }];
  });
  const [first, ...others] = long;
  if (first === undefined) return [];
  return others
    .filter(({ courses }) => Math.abs(courses / first.courses - 1) > sameBrick)
    .map(({ path, courses }) => {
      const lengths = `${first.courses.toFixed(1)} courses long, those of ${path} ${courses.toFixed(1)}`;
      const message = `the bricks of ${first.path} are ${lengths}: join photos of the same wall only`;
      return { code: 'bricks-differ', message };
    });
}

function coursesToBrick(source: KnownSource): number | null {
  const { lattice, measurement } = source;
  if (lattice?.brick == null) return null;
  const across = lattice.axis === 'x' ? 'y' : 'x';
  return (lattice.brick * (measurement?.mmPerPx[across] ?? 1)) / heightOf(source, lattice);
}

function refuse<Code extends WorkRefusal>(code: Code, message: string): Outcome<never, Code> {
  return { ok: false, code, message, hint: 'join photos of the same wall only' };
}

function nameOf({ bond }: Lattice): string {
  return bonds.find(({ id }) => id === bond)?.name ?? 'no bond';
}

function unlikeCourses(first: KnownSource, other: KnownSource): string | null {
  const [a, b] = [first.lattice, other.lattice];
  const [one, two] = [showPath(first.path), showPath(other.path)];
  if (a === null && b === null) return null;
  if (a === null) return `no courses were found in ${one}, but in ${two}`;
  if (b === null) return `no courses were found in ${two}, but in ${one}`;
  if (a.axis !== b.axis) return `the courses of ${one} lie one way and those of ${two} the other`;
  const [high, low] = [heightOf(first, a), heightOf(other, b)];
  if (Math.abs(high / low - 1) <= sameCourse) return null;
  return `the courses of ${one} are ${high.toFixed(1)} mm high, those of ${two} ${low.toFixed(1)} mm`;
}

function heightOf({ measurement }: KnownSource, { axis, course }: Lattice): number {
  return course * (measurement?.mmPerPx[axis] ?? 1);
}

// What repeats in one photo repeats in the other, at its own scale.
function lend(source: KnownSource, known: KnownSource | undefined): AgreedSource {
  const { lattice, measurement } = source;
  const its = known?.lattice ?? null;
  if (known === undefined || lattice === null || its === null || lattice.bond !== null) {
    return { ...source, bondFrom: null };
  }
  const inMine = (length: number | null, along: 'x' | 'y'): number | null =>
    length === null
      ? null
      : (length * (known.measurement?.mmPerPx[along] ?? 1)) / (measurement?.mmPerPx[along] ?? 1);
  const [x, y] = [inMine(its.repeat.x, 'x'), inMine(its.repeat.y, 'y')];
  const repeat = { x: x === null ? null : px(x), y: y === null ? null : px(y) };
  return { ...source, lattice: { ...lattice, bond: its.bond, repeat }, bondFrom: known.path };
}
