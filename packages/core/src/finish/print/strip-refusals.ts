import type { Outcome } from '../../errors/outcome.js';
import type { StripLight } from './fit-light.js';
import type { SampledBoxes } from './sample-boxes.js';
import { stripVersion } from './strip-patches.js';

/** Why a picture cannot be read as a test strip. */
export type StripRefusal =
  'no-strip' | 'other-strip' | 'strip-too-small' | 'bad-exposure' | 'strip-uneven' | 'strip-unlike';

/** That it cannot, in words. */
export type RefusedStrip = Extract<
  Outcome<never, StripRefusal>,
  {
    /** Tells it from a result. */
    readonly ok: false;
  }
>;

// Fewer pixels show too little of a patch between its blurred edges.
const leastPx = 12;
const mostBlown = 0.02;
const darkestPaper = 0.06;
const leastEven = 0.3;
const roughest = 0.05;

/**
 * Say that no strip was found.
 *
 * @param marks - How many things like its marks were.
 * @returns The refusal.
 */
export function refuseMarks(marks: number): RefusedStrip {
  const seen =
    marks >= 4
      ? 'black marks, but no four of them with the code of a test strip between them'
      : `${marks === 0 ? 'none' : `only ${marks}`} of the four black marks of a test strip`;
  return {
    ok: false,
    code: 'no-strip',
    message: `the picture shows ${seen}`,
    hint: 'take all of the strip, flat and sharp, with some white around its corners; gaugerod sheet --test-strip makes one',
  };
}

/**
 * Refuse a strip whose patches are others.
 *
 * @param version - Which it is.
 * @returns The refusal, or null where it is the one that is known.
 */
export function refuseVersion(version: number): RefusedStrip | null {
  if (version === stripVersion) return null;
  return {
    ok: false,
    code: 'other-strip',
    message: `the picture shows strip ${version}, and this gaugerod knows strip ${stripVersion}`,
    hint: 'print the strip of this gaugerod (sheet --test-strip), or read it by the one that made it',
  };
}

/**
 * Refuse a strip that is too small to measure.
 *
 * @param patchPx - Pixels along a patch.
 * @returns The refusal, or null where there are enough.
 */
export function refuseSmall(patchPx: number): RefusedStrip | null {
  if (patchPx >= leastPx) return null;
  return {
    ok: false,
    code: 'strip-too-small',
    message: `a patch of the strip is ${patchPx.toFixed(1)} px wide, and ${leastPx} are needed`,
    hint: 'scan it at 150 dpi or more, or go nearer',
  };
}

/**
 * Refuse a strip whose light tells no colours.
 *
 * @param paper - White between its patches.
 * @param light - What it makes of the light.
 * @returns The refusal, or null where the light does.
 */
export function refuseLight(paper: SampledBoxes, light: StripLight): RefusedStrip | null {
  const { length } = paper.light;
  const mean = paper.light.reduce((sum, value) => sum + value, 0) / length;
  if (paper.blown > mostBlown) {
    return badExposure(
      'is too bright: its paper is as white as the picture can say, and shows no light any more',
      'expose it less, by a stop or so; a scanner has a setting for brightness',
    );
  }
  if (!(mean >= darkestPaper)) {
    return badExposure(
      'is too dark: its paper is nearly black',
      'use more light, or expose it more',
    );
  }
  const { evenness, rough } = light;
  if (evenness >= leastEven && rough <= roughest) return null;
  const message =
    evenness < leastEven
      ? `the light on the strip falls to ${Math.round(100 * evenness)} % from one side to the other`
      : `the white of the strip is patchy, by ${Math.round(100 * rough)} %: a shadow, a fold or a reflection lies on it, or it is bent`;
  return {
    ok: false,
    code: 'strip-uneven',
    message,
    hint: 'lay it flat in the shade outdoors or by a window, without sun or lamp on it; or scan it',
  };
}

function badExposure(what: string, hint: string): RefusedStrip {
  return { ok: false, code: 'bad-exposure', message: `the strip ${what}`, hint };
}

/**
 * Say that the patches are not those of the strip.
 *
 * @param isGrey - Whether they show no colours at all.
 * @returns The refusal.
 */
export function refuseUnlike(isGrey: boolean): RefusedStrip {
  return {
    ok: false,
    code: 'strip-unlike',
    message: isGrey
      ? 'the picture shows the strip without its colours'
      : 'the patches do not follow the colours of the strip',
    hint: isGrey
      ? 'scan it in colour, not in grey; and print it in colour'
      : 'print it in colour, on white or pale paper, with every ink in good order',
  };
}
