import { bonds } from '../catalogue/bonds/index.js';
import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';
import type { Lattice } from '../surface/measurement.js';
import { px } from '../units/units.js';
import type { KnownSource } from './open-source.js';

/** Why photos are not of one wall. */
export type WorkRefusal = 'bonds-differ' | 'courses-differ';

// Courses of one wall differ by less, as a fraction: a format's tolerance and two measurements'.
const sameCourse = 0.03;

/**
 * Make sure that photos show one kind of work: courses of one height that lie one way, in one bond.
 *
 * @param sources - Measured, where there are several.
 * @returns The same; where the bond could be told in some only, it is taken for the others' too.
 */
export function sameWork(
  sources: readonly KnownSource[],
): Outcome<readonly KnownSource[], WorkRefusal> {
  const [first] = sources;
  if (first === undefined) return { ok: true, value: sources, warnings: [] };
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
  const value = known === undefined ? sources : sources.map((source) => lend(source, known));
  return { ok: true, value, warnings: [] };
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
function lend(source: KnownSource, known: KnownSource): KnownSource {
  const { lattice, measurement } = source;
  const its = known.lattice;
  if (lattice === null || its === null || lattice.bond !== null) return source;
  const inMine = (length: number | null, along: 'x' | 'y'): number | null =>
    length === null
      ? null
      : (length * (known.measurement?.mmPerPx[along] ?? 1)) / (measurement?.mmPerPx[along] ?? 1);
  const [x, y] = [inMine(its.repeat.x, 'x'), inMine(its.repeat.y, 'y')];
  const repeat = { x: x === null ? null : px(x), y: y === null ? null : px(y) };
  return { ...source, lattice: { ...lattice, bond: its.bond, repeat } };
}
