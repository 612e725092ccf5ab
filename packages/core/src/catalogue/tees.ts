import type { SectionEntry } from './section-entry.js';

const source = 'from memory of EN 10055, whose flanges and stems taper by 2 %';

// As deep as wide, flange and stem of one thickness, which is the radius of the root as well.
function tee(depth: number, thickness: number, kgPerM: number): SectionEntry {
  const sizes = { depth, width: depth, web: thickness, flange: thickness, root: thickness };
  return { shape: 'tee', name: `T ${depth}`, ...sizes, kgPerM, flanges: 'taper', source };
}

/** Tees, a row each: depth and thickness in mm, kg/m. */
export const tees: readonly SectionEntry[] = [
  tee(30, 4, 1.77),
  tee(35, 4.5, 2.33),
  tee(40, 5, 2.96),
  tee(50, 6, 4.44),
  tee(60, 7, 6.23),
  tee(70, 8, 8.32),
  tee(80, 9, 10.7),
  tee(100, 11, 16.4),
  tee(120, 13, 23.2),
  tee(140, 15, 31.3),
];
