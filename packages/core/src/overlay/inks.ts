import { srgbToLinear } from '../colour/srgb.js';

/** A colour in linear light, 0 to 1. */
export type Ink = readonly [red: number, green: number, blue: number];

function ink(red: number, green: number, blue: number): Ink {
  return [srgbToLinear(red), srgbToLinear(green), srgbToLinear(blue)];
}

/** The colours of an overlay. */
interface Inks {
  /** Joints between courses: yellow. */
  readonly bed: Ink;
  /** Joints within courses: sky blue. */
  readonly perpend: Ink;
  /** What a person marked: vermilion. */
  readonly mark: Ink;
  /** Around lines on the photo, and for words on paper. */
  readonly dark: Ink;
  /** The page, words on the photo, and around what a person marked. */
  readonly paper: Ink;
}

/**
 * What an overlay is drawn in. Chosen to be told apart by the colour-blind; and no two things differ
 * by colour alone.
 *
 * @see Okabe and Ito 2008, Color universal design: how to make figures and presentations that are
 *   friendly to colorblind people (table of eight colours in sRGB)
 */
export const inks: Inks = {
  bed: ink(240, 228, 66),
  perpend: ink(86, 180, 233),
  mark: ink(213, 94, 0),
  dark: ink(20, 20, 20),
  paper: ink(255, 255, 255),
};
