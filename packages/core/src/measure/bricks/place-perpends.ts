import type { Raster } from '../../raster/raster.js';
import { toPattern } from './bond-pattern.js';
import type { BondFit } from './fit-bond.js';
import { type CourseBands, foldCourses } from './fold-courses.js';
import type { Shown } from '../joints/fold-rows.js';
import { type Foretold, foretellPerpends } from './foretell-perpends.js';
import { layAll, windowLength } from './lay-bond.js';
import { peakAlong } from './peak-along.js';
import { type Mortar, showMortar } from './show-mortar.js';
import type { PlacedJoints } from '../joints/place-joints.js';
import type { CourseLines } from './trace-lines.js';

/** A bond that was found, and how its perpends show. */
export interface FoundBond {
  /** Which, and how long its stretcher is in samples of bands. */
  readonly fit: BondFit;
  /** Of what kind its mortar is. */
  readonly mortar: Mortar;
  /** All lines along the courses, in the view in which it was found. */
  readonly lines: CourseLines;
}

/** A picture in which a bond was found. */
export interface BondedPicture {
  /** The picture, level. */
  readonly raster: Raster;
  /** Which rows of each column the photo shows. */
  readonly shown: Shown;
  /** Its bed joints. */
  readonly placed: PlacedJoints;
}

/** A perpend that a bond foretells and that shows. */
export interface PlacedPerpend {
  /** Column of the picture. */
  readonly x: number;
  /** Row, at half the course's height. */
  readonly y: number;
  /** Course, from 0. */
  readonly row: number;
  /** Stretchers from any place of its group. */
  readonly n: number;
  /** Perpends of one course in one part of the wall, which were counted together. */
  readonly group: number;
}

/** How far from where it is foretold a perpend may lie, in stretchers: bricks are laid by hand. */
const reach = 0.07;
/** A perpend shows that is this high: of those that show best, and at all. */
const leastShare = 0.5;
const leastLine = 0.25;
/** Where fewer of those foretold show, the bond was laid over something else. */
const leastMet = 0.45;

/**
 * Place every perpend that a bond foretells and that shows, over all of a picture.
 *
 * @param picture - In which the bond was found, perhaps in a part of it.
 * @param bond - As found.
 * @returns Each at the line nearest to its place, in pixels of the picture, course by course.
 */
export function placePerpends(picture: BondedPicture, bond: FoundBond): PlacedPerpend[] {
  const { fit, mortar, lines } = bond;
  const { raster, placed } = picture;
  const bands = showMortar(foldCourses(lines), mortar);
  blank(bands, picture);
  const pattern = toPattern(fit.bond);
  const { stretcher } = fit;
  const sought = Math.max(2, reach * stretcher);
  const windows = layAll(bands, pattern, stretcher, windowLength * stretcher).map((lay) =>
    foretellPerpends(lay, pattern, stretcher)
      .filter((place) => isShown(bands, picture, place))
      .map(({ row, x }) => ({
        row,
        n: x / stretcher,
        ...peakAlong(bands, row, { x, reach: sought }),
      })),
  );
  const values = windows.flat().map(({ value }) => value);
  values.sort((a, b) => a - b);
  const high = values[Math.floor(0.8 * values.length)] ?? 0;
  const least = Math.max(leastLine, leastShare * high);
  const { joints, slope } = placed;
  return windows
    .flatMap((places, w) => {
      const met = places.filter(({ value }) => value >= least);
      if (met.length < leastMet * places.length) return [];
      return met.map(({ row, n, x }) => {
        const column = toColumn(bands, x);
        const fall = slope * (column - raster.width / 2);
        const y = (joints[row]! + joints[row + 1]!) / 2 + fall;
        return { x: column, y, row, n, group: w * bands.courses + row };
      });
    })
    .sort((a, b) => a.row - b.row || a.x - b.x);
}

// Samples are means over columns; the middle of the first lies half a sample in.
const toColumn = (bands: CourseBands, x: number): number => bands.left + (x + 0.5) * bands.step;

function isShown(
  bands: CourseBands,
  { raster, shown, placed }: BondedPicture,
  { row, x }: Foretold,
): boolean {
  const column = Math.floor(toColumn(bands, x));
  if (column < 0 || column >= raster.width) return false;
  const middle = (placed.joints[row]! + placed.joints[row + 1]!) / 2;
  return shown.from[column]! <= middle && shown.to[column]! >= middle;
}

// What lies outside the photo is as its edge, drawn out: no place for lines.
function blank(bands: CourseBands, picture: BondedPicture): void {
  for (let row = 0; row < bands.courses; row++) {
    for (let x = 0; x < bands.length; x++) {
      if (isShown(bands, picture, { row, x })) continue;
      bands.line[row * bands.length + x] = 0;
      bands.seen[row * bands.length + x] = 0;
    }
  }
}
