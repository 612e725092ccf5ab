import type { Raster } from '../../raster/raster.js';
import { bendBeds } from './bend-beds.js';
import { chooseBricks } from './choose-bricks.js';
import type { Random } from './create-random.js';
import { layPlaces, type Place } from './lay-places.js';
import type { PatternBrick } from './lay-pattern.js';
import { fadeOver } from './fade-over.js';
import { layBeds } from './lay-beds.js';
import type { Brick } from './list-bricks.js';
import { createMosaic, settleMosaic } from './mosaic.js';
import { pasteCell } from './paste-cell.js';
import type { Beds } from './place-beds.js';
import { straysOf } from './strays-of.js';

/** What a wall is laid of, and how large. */
export interface WallPlan {
  /** The photos. */
  readonly rasters: readonly Raster[];
  /** Whole bricks of them all, at least one of every face. */
  readonly bricks: readonly Brick[];
  /** The bond's courses. */
  readonly pattern: readonly (readonly PatternBrick[])[];
  /** Bed joints of the photos. */
  readonly beds: readonly Beds[];
  /** Columns and rows of the tile, whole. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Bond repeats in it. */
  readonly repeats: { readonly x: number; readonly y: number };
  /** A joint's width, in pixels. */
  readonly joint: number;
}

// Bricks above and below a bed stand apart by less than they fade over, or there would be a gap.
const mostBend = 0.8;

/**
 * Lay a wall brick by brick, so that it goes on around its edges.
 *
 * @param plan - Bricks, bond and size.
 * @param random - Decides.
 * @returns The wall; the middle of a bed joint is its top edge, and of a perpend its top left.
 */
export function layWall(plan: WallPlan, random: Random): Raster {
  const { rasters, bricks, pattern, width, height, repeats, joint } = plan;
  const places = layPlaces(pattern, { width, repeats });
  const courses = repeats.y * pattern.length;
  const course = height / courses;
  const chosen = chooseBricks({ places, bricks, width, courses, course }, random);
  const fade = fadeOver(joint);
  const strays = plan.beds.flatMap(straysOf);
  const beds = layBeds({ courses, height, strays }, random);
  const bend = bendBeds({ like: plan.beds, courses, width, most: mostBend * fade }, random);
  const shifts = places.map((_, at) => perpendShift(places, bricks, { chosen, at }));
  const tile = createMosaic(width, height);
  for (const [at, place] of places.entries()) {
    const brick = bricks[chosen[at]!]!;
    const middle = place.left + place.length / 2;
    pasteCell(tile, rasters[brick.source]!, {
      from: brick,
      to: {
        left: place.left + shifts[at]!,
        right: place.left + place.length + shifts[place.after]!,
        top: beds[place.course]! + bend(place.course, middle),
        bottom: beds[place.course + 1]! + bend(place.course + 1, middle),
      },
      fade,
    });
  }
  return settleMosaic(tile);
}

// A perpend between two bricks strays as both would have it. Two means of two are as wide as one.
function perpendShift(
  places: readonly Place[],
  bricks: readonly Brick[],
  { chosen, at }: { readonly chosen: Int32Array; readonly at: number },
): number {
  const left = bricks[chosen[places[at]!.before]!]!;
  const right = bricks[chosen[at]!]!;
  return (left.strays[1] + right.strays[0]) * Math.SQRT1_2;
}
