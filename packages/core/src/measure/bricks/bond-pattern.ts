import type { Bond } from '../../catalogue/bonds/bond.js';

/** A bond as its perpends lie: places in stretchers, course by course. */
export interface Pattern {
  /** Which. */
  readonly bond: Bond;
  /** What repeats along a course, in stretchers. */
  readonly repeat: number;
  /** For each course, where its perpends lie within the repeat, as fractions of it. */
  readonly perpends: readonly (readonly number[])[];
  /** Perpends in one course's repeat, the mean over courses. */
  readonly density: number;
}

const lengthOf = { stretcher: 1, header: 0.5 } as const;

/**
 * Lay out all courses of a bond over one common repeat; a header is taken as half a stretcher.
 *
 * @param bond - From the catalogue.
 * @returns Where its perpends lie.
 */
export function toPattern(bond: Bond): Pattern {
  const runs = bond.courses.map(({ run }) => run.reduce((sum, face) => sum + lengthOf[face], 0));
  const repeat = Math.max(...runs);
  const perpends = bond.courses.map(({ run, shift }, k) => {
    const places: number[] = [];
    for (let times = 0; times < Math.round(repeat / runs[k]!); times++) {
      let x = runs[k]! * (times + shift);
      for (const face of run) {
        places.push((x / repeat) % 1);
        x += lengthOf[face];
      }
    }
    return places;
  });
  const density = perpends.reduce((sum, places) => sum + places.length, 0) / perpends.length;
  return { bond, repeat, perpends, density };
}
