import { type Scattered, scatter } from './scatter.js';
import type { WeatherSite } from './site.js';

/** A place that was mended. */
export interface MendedPlace {
  /** Its middle, mm from the datum. */
  readonly x: number;
  /** The same, down. */
  readonly y: number;
  /** From there to its sides, mm. */
  readonly wide: number;
  /** From there to its top and foot, mm. */
  readonly high: number;
  /** Of what it shows beside its size, numbers of its own from 0 up to 1, by which. */
  readonly chance: Scattered['chance'];
  /** How little it has aged since, 0 to 1. */
  readonly fresh: number;
}

/** Half the height of the tallest place, mm. */
const tallest = 530;

/**
 * Strew places that were mended over a wall or roof.
 *
 * @param site - It.
 * @param over - How far past half its height one may show, mm.
 * @returns What lists those that a row at so many mm down may show.
 */
export function placeMended(
  site: WeatherSite,
  over: number,
): (y: number) => readonly MendedPlace[] {
  const reach = { up: tallest + over, down: tallest + over };
  const share = 0.15 + 0.6 * site.strengths.patches;
  const placesNear = scatter(site, { id: 93, cell: { x: 2900, y: 2300 }, share, reach });
  return (y) => placesNear(y).map(toPlace);
}

function toPlace({ x, y, cell, chance }: Scattered): MendedPlace {
  return {
    x,
    y,
    wide: Math.min(cell.x / 3, 180 + 620 * chance(0)),
    high: Math.min(cell.y / 3, 110 + (tallest - 110) * chance(1)),
    chance,
    fresh: 0.45 + 0.5 * chance(3),
  };
}
