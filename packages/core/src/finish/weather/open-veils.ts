import type { PlaceDots } from './open-places.js';

/** Two rows of places, and how far from the first to the second a row of dots lies, 0 up to 1. */
export interface VeilsAround {
  /** On the row or above it. */
  readonly above: Float32Array;
  /** Below it. */
  readonly below: Float32Array;
  /** How far. */
  readonly share: number;
}

/**
 * Open what lies over a wall: veils of two rows of places are held, and every row of dots lies between two.
 *
 * @param dots - From one row of places to the next.
 * @param rows - Two of them, which are filled with those around a row of dots.
 * @param lay - Fills one with the row of that number.
 * @returns What gives those around a row of dots, by its number from the datum; what it gave before is lost.
 */
export function openVeils(
  dots: PlaceDots,
  rows: readonly [Float32Array, Float32Array],
  lay: (number: number, row: Float32Array) => void,
): (y: number) => VeilsAround {
  let [above, below] = rows;
  let held = NaN;
  return (y) => {
    const number = Math.floor(y / dots);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else lay(number, above);
      lay(number + 1, below);
      held = number;
    }
    return { above, below, share: y / dots - number };
  };
}
