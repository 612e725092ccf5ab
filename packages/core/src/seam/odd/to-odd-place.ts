import type { PerAxis } from '../../surface/measurement.js';

/** A box of the small picture that differs from what is ordinary. */
export interface Candidate {
  /** Its left edge. */
  readonly x: number;
  /** Its top edge. */
  readonly y: number;
  /** Columns. */
  readonly columns: number;
  /** Rows. */
  readonly rows: number;
  /** How much it catches the eye: 1 is the border. */
  readonly salience: number;
  /** How it differs: L*, a*, b*. */
  readonly difference: readonly [number, number, number];
}

/** A place that catches the eye. */
export interface OddPlace {
  /** Its left edge in pixels of the picture. */
  readonly x: number;
  /** Its top edge. */
  readonly y: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** How much it catches the eye: over 1 it does. */
  readonly salience: number;
  /** By how much its colour differs from what is around it: CIE 1976 colour difference. */
  readonly difference: number;
  /** In what way: `darker`, `lighter`, `redder`, `greener`, `yellower` or `bluer`. */
  readonly way: OddWay;
}

/** In what way a place differs most. */
export type OddWay = 'darker' | 'lighter' | 'redder' | 'greener' | 'yellower' | 'bluer';

/**
 * Say what is odd about a place, in pixels of the picture.
 *
 * @param place - As found in a smaller picture.
 * @param times - Pixels of the picture to one of the smaller.
 * @returns Where it lies in whole pixels, and how it differs.
 */
export function toOddPlace(place: Candidate, times: PerAxis<number>): OddPlace {
  const [lightness, a, b] = place.difference;
  return {
    x: Math.round(place.x * times.x),
    y: Math.round(place.y * times.y),
    width: Math.round(place.columns * times.x),
    height: Math.round(place.rows * times.y),
    salience: place.salience,
    difference: Math.hypot(lightness, a, b),
    way: wayOf(lightness, a, b),
  };
}

function wayOf(lightness: number, a: number, b: number): OddWay {
  if (Math.abs(lightness) >= Math.max(Math.abs(a), Math.abs(b))) {
    return lightness < 0 ? 'darker' : 'lighter';
  }
  if (Math.abs(a) >= Math.abs(b)) return a > 0 ? 'redder' : 'greener';
  return b > 0 ? 'yellower' : 'bluer';
}
