import type { Raster } from '../../raster/raster.js';
import { bendBeds } from './bend-beds.js';
import type { Random } from './create-random.js';
import { fadeOver } from './fade-over.js';
import { layBeds } from './lay-beds.js';
import { layRows } from './lay-rows.js';
import { createMosaic, settleMosaic } from './mosaic.js';
import { pasteCell } from './paste-cell.js';
import { splitCourses } from './split-courses.js';
import { straysOf } from './strays-of.js';
import type { PatchSource } from './take-patch.js';

/** A tile of courses whose bond is not known. */
export interface SplitWish {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Courses in it. */
  readonly courses: number;
  /** What decides. */
  readonly random: Random;
}

// Joints that show over less of the photos than this are not to be trusted.
const leastCovered = 0.6;
// Work whose perpends stand upon one another so often must stay so.
const mostUpright = 0.4;
const leastPieces = 6;
// Bricks above and below a bed stand apart by less than they fade over, or there would be a gap.
const mostBend = 0.8;

/**
 * Lay a tile of whole bricks of any length, course by course, where upright joints show clearly.
 *
 * @param rasters - The photos, in linear light.
 * @param sources - What is known of them.
 * @param wish - How large it is to be, and what decides.
 * @returns The tile and how many pieces it is laid of, or null where joints do not show well enough.
 */
export function extendSplit(
  rasters: readonly Raster[],
  sources: readonly PatchSource[],
  wish: SplitWish,
): { readonly raster: Raster; readonly bricks: number } | null {
  const split = sources.map((source, i) => splitCourses(i, rasters[i]!, source));
  const clear = split.filter((one) => one.covered >= leastCovered && one.upright <= mostUpright);
  const pieces = clear.flatMap((one) => one.pieces);
  if (pieces.length < leastPieces) return null;
  const { width, height, courses, random } = wish;
  const rows = layRows({ pieces, width, courses, course: height / courses }, random);
  if (rows === null) return null;
  const known = sources.map((source) => source.courses).filter((one) => one !== null);
  const strays = known.flatMap(({ beds }) => straysOf(beds));
  const joint = known.reduce((sum, { mortar }) => sum + mortar.joint, 0) / known.length;
  const beds = layBeds({ courses, height, strays }, random);
  const fade = fadeOver(joint);
  const like = known.map((one) => one.beds);
  const bend = bendBeds({ like, courses, width, most: mostBend * fade }, random);
  const tile = createMosaic(width, height);
  for (const [row, laid] of rows.entries()) {
    for (const { piece, left, right } of laid) {
      const middle = (left + right) / 2;
      const top = beds[row]! + bend(row, middle);
      const bottom = beds[row + 1]! + bend(row + 1, middle);
      pasteCell(tile, rasters[piece.source]!, {
        from: piece,
        to: { left, right, top, bottom },
        fade,
      });
    }
  }
  return { raster: settleMosaic(tile), bricks: pieces.length };
}
