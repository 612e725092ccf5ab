import type { Bond, Face } from '../../catalogue/bonds/bond.js';

/** One brick of a bond's course. */
export interface PatternBrick {
  /** Which face it shows. */
  readonly face: Face;
  /** Where its left perpend lies, as a fraction of the bond's repeat, 0 up to 1. */
  readonly at: number;
  /** Its length with one joint, as a fraction of the repeat. */
  readonly length: number;
}

const lengthOf = { stretcher: 1, header: 0.5 } as const;

/**
 * Lay out a bond's courses over one common repeat; a header is half a stretcher.
 *
 * @param bond - From the catalogue.
 * @returns Course by course, its bricks from left to right.
 */
export function layPattern(bond: Bond): readonly (readonly PatternBrick[])[] {
  const runs = bond.courses.map(({ run }) => run.reduce((sum, face) => sum + lengthOf[face], 0));
  const repeat = Math.max(...runs);
  return bond.courses.map(({ run, shift }, course) => {
    const own = runs[course]!;
    const bricks: PatternBrick[] = [];
    for (let times = 0; times < Math.round(repeat / own); times++) {
      let x = own * (times + shift);
      for (const face of run) {
        bricks.push({ face, at: (x / repeat) % 1, length: lengthOf[face] / repeat });
        x += lengthOf[face];
      }
    }
    return bricks.sort((a, b) => a.at - b.at);
  });
}
