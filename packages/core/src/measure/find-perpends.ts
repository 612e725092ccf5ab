import type { Bond } from '../catalogue/bonds/bond.js';
import type { Raster } from '../raster/raster.js';
import { type BondFit, fitBond, refineStretcher } from './fit-bond.js';
import { type CourseBands, foldCourses } from './fold-courses.js';
import type { View } from './fold-rows.js';
import type { PlacedJoints } from './place-joints.js';

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
}

/** Bed joints, and how they show. */
export interface SeenJoints {
  /** Where they lie. */
  readonly placed: PlacedJoints;
  /** In which view of the picture. */
  readonly view: View;
}

const none: Perpends = { brick: null, repeat: null, courses: null, bond: null };

/** Under this the perpends that a bond foretells are not the ones that show. */
const leastAgreement = 0.4;
/** How much better a bond must agree than the next to be named. */
const leastLead = 1.06;
/** A brick shorter than this many courses shows its header. */
const longestHeader = 1.75;

// What the best of so many lengths, bonds and places would reach where perpends lie anyhow: the
// largest of some thousand correlations over so many independent places.
function reachOfChance(bands: CourseBands, course: number): number {
  const places = (bands.courses * bands.length * bands.step) / (0.15 * course);
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

function isSure(fit: BondFit, next: BondFit | undefined): boolean {
  return next === undefined || fit.agreement > leastLead * next.agreement;
}

function isSameLength(fit: BondFit, next: BondFit | undefined): boolean {
  return next === undefined || Math.abs(next.stretcher / fit.stretcher - 1) < 0.03;
}

/**
 * Find the perpends between bed joints: how long a brick is, and in which bond they lie.
 *
 * @param raster - The picture.
 * @param bed - Its bed joints.
 * @returns What was found; all null where the perpends follow no bond.
 */
export function findPerpends(raster: Raster, bed: SeenJoints): Perpends {
  const { placed, view } = bed;
  const { course } = placed;
  // Bed joints that show as an edge leave open whether their mortar is dark or light.
  let best: { bands: CourseBands; fits: BondFit[] } | null = null;
  for (const mortar of [1, -1] as const) {
    const bands = foldCourses(raster, placed, { mortar, view });
    const fits = fitBond(bands, course / bands.step);
    if ((fits[0]?.agreement ?? -1) > (best?.fits[0]?.agreement ?? -1)) best = { bands, fits };
  }
  if (best === null) return none;
  const { bands, fits } = best;
  const [fit, next] = fits;
  if (fit === undefined) return none;
  const least = Math.max(leastAgreement, 1.25 * reachOfChance(bands, course));
  if (fit.agreement < least) return none;
  const sure = isSure(fit, next);
  if (!sure && !isSameLength(fit, next)) return none;
  const brick = refineStretcher(bands, fit) * bands.step;
  if (!sure) return { ...none, brick };
  const { bond } = fit;
  return {
    brick,
    repeat: brick * repeatOf(bond),
    courses: bond.courses.length,
    bond: nameBond(bond, brick, course),
  };
}
