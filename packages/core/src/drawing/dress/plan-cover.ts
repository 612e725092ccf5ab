import { wrapInto } from '../../numeric/wrap-into.js';

/** A stretch of dots along one axis. */
export interface Stretch {
  /** Of its first dot, from the datum. */
  readonly start: number;
  /** How many, 1 or more. */
  readonly length: number;
}

/** One picture that covers stretches of a surface that repeats, along one axis. */
export interface Cover {
  /** What of the surface it shows. */
  readonly picture: Stretch;
  /** Where it is laid for each stretch: its first dot each time. */
  readonly places: readonly (readonly number[])[];
}

/** How a surface repeats. */
export interface CoverOptions {
  /** After how many dots, a whole number of 1 or more. */
  readonly period: number;
  /** By how many dots pictures that lie side by side overlap, at least. */
  readonly overlap: number;
  /** Dots apart at least that they are laid. */
  readonly step: number;
}

// Of many outlines the first hundred tell as much.
const mostTried = 100;

/**
 * Plan one picture for several stretches of a surface: as short as lets every stretch lie on it once,
 * a whole number of repeats off; else one of a repeat and a little more, laid as often as it takes.
 * What overlaps shows the same, so that no edge is seen.
 *
 * @param stretches - One or more.
 * @param options - How the surface repeats.
 * @returns Which dots it shows, and where it goes.
 */
export function planCover(stretches: readonly Stretch[], options: CoverOptions): Cover {
  const { period, overlap, step } = options;
  // A picture that begins where no stretch does could begin later.
  const starts = [...new Set(stretches.map(({ start }) => wrapInto(start, period)))].slice(
    0,
    mostTried,
  );
  const once = least(starts, (start) => Math.max(...reaches(stretches, start, period)));
  const repeats = Math.max(1, Math.ceil(step / period));
  const several = repeats * period + overlap;
  if (once.cost <= several)
    return layAll(stretches, { start: once.start, length: once.cost }, options);
  const lay = (start: number): Cover => layAll(stretches, { start, length: several }, options);
  const fewest = least(starts, (start) => countOf(lay(start)));
  return lay(fewest.start);
}

// How far each stretch reaches from the picture's beginning.
function reaches(stretches: readonly Stretch[], start: number, period: number): number[] {
  return stretches.map((one) => wrapInto(one.start - start, period) + one.length);
}

function least(
  starts: readonly number[],
  costOf: (start: number) => number,
): { readonly start: number; readonly cost: number } {
  let best = { start: 0, cost: Infinity };
  for (const start of starts) {
    const cost = costOf(start);
    if (cost < best.cost) best = { start, cost };
  }
  return best;
}

function countOf({ places }: Cover): number {
  return places.reduce((sum, one) => sum + one.length, 0);
}

function layAll(stretches: readonly Stretch[], picture: Stretch, options: CoverOptions): Cover {
  return { picture, places: stretches.map((one) => lay(one, picture, options)) };
}

function lay(stretch: Stretch, picture: Stretch, { period, overlap }: CoverOptions): number[] {
  const end = stretch.start + stretch.length;
  const step = Math.max(1, Math.floor((picture.length - overlap) / period)) * period;
  const first = stretch.start - wrapInto(stretch.start - picture.start, period);
  const places = [first];
  for (let at = first; at + picture.length < end;) places.push((at += step));
  return places;
}
