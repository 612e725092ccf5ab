import type { Bond } from '../../catalogue/bonds/bond.js';
import { bonds } from '../../catalogue/bonds/index.js';
import { type Pattern, toPattern } from './bond-pattern.js';
import type { CourseBands } from './fold-courses.js';
import { layAll, layEach, meanAgreement, windowLength } from './lay-bond.js';

/** A bond laid over the courses of a picture, and how well it agrees. */
export interface BondFit {
  /** Which. */
  readonly bond: Bond;
  /** A stretcher with its joint, in samples of the bands. */
  readonly stretcher: number;
  /** -1 to 1: correlation of the perpends it foretells with those that show. */
  readonly agreement: number;
}

const patterns: readonly Pattern[] = bonds.filter(({ id }) => id !== 'header').map(toPattern);
const isMixed = ({ courses }: Bond): boolean => courses.some(({ run }) => run.includes('header'));
// Bonds of one repeat are laid together.
const groups: readonly (readonly number[])[] = [...new Set(patterns.map((p) => p.repeat))].map(
  (repeat) => patterns.flatMap((pattern, i) => (pattern.repeat === repeat ? [i] : [])),
);

/** Which lengths of brick are tried. */
export interface BondLengths {
  /** These, in samples of the bands; any unless told. */
  readonly near: readonly number[];
  /** And those that differ by no more than this, as a fraction. */
  readonly within: number;
}

/**
 * Lay every bond of the catalogue over the courses, at every brick length, and see which foretells
 * the perpends best: it must meet those that show and miss none.
 *
 * @param bands - Perpends by course.
 * @param course - Course height in samples of the bands.
 * @param lengths - Of a brick; every length unless told.
 * @returns Bonds with the length that suits each best, best first. Header bond is left out: its
 *   joints are those of stretchers half as long.
 */
export function fitBond(bands: CourseBands, course: number, lengths?: BondLengths): BondFit[] {
  const longest = Math.min(6.6 * course, bands.length / 1.4);
  // Along low courses fine grain passes for narrow tiles.
  const narrowest = course >= 16 / bands.step ? 0.65 : 1.2;
  const best = patterns.map(() => ({ stretcher: 0, agreement: -1 }));
  for (let stretcher = course * narrowest; stretcher < longest; stretcher *= 1.014) {
    if (lengths?.near.every((near) => Math.abs(stretcher / near - 1) > lengths.within)) continue;
    for (const group of groups) {
      const fitting = group.filter(
        (i) =>
          patterns[i]!.repeat * stretcher <= bands.length &&
          patterns[i]!.perpends.length <= bands.courses &&
          // Bonds of two faces are of bricks, which are longer than that; tiles may be narrow.
          (!isMixed(patterns[i]!.bond) || stretcher >= 1.7 * course),
      );
      if (fitting.length === 0) continue;
      const laid = layEach(
        bands,
        fitting.map((i) => patterns[i]!),
        stretcher,
        windowLength * stretcher,
      );
      for (const [n, i] of fitting.entries()) {
        const agreement = meanAgreement(laid[n]!);
        if (agreement > best[i]!.agreement) best[i] = { stretcher, agreement };
      }
    }
  }
  const fits = best.flatMap((fit, i) =>
    fit.stretcher > 0 ? [{ bond: patterns[i]!.bond, ...fit }] : [],
  );
  fits.sort((a, b) => b.agreement - a.agreement);
  return fits
    .slice(0, 4)
    .map((fit) => tune(bands, fit))
    .sort((a, b) => b.agreement - a.agreement);
}

// The best length between those that were tried.
function tune(bands: CourseBands, fit: BondFit): BondFit {
  const pattern = toPattern(fit.bond);
  let best = fit;
  for (let f = -0.0105; f <= 0.0106; f += 0.003) {
    const stretcher = fit.stretcher * (1 + f);
    const agreement = meanAgreement(layAll(bands, pattern, stretcher, windowLength * stretcher));
    if (agreement > best.agreement) best = { bond: fit.bond, stretcher, agreement };
  }
  return best;
}
