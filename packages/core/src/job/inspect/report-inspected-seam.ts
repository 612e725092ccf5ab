import type { InspectedSeam } from '../../seam/inspect/inspected-seam.js';
import { toFigures } from '../to-figures.js';
import { whySeam } from './why-seam.js';

/** How well a picture meets itself along one axis, as it is reported. */
export interface InspectedSeamReport extends InspectedSeam {
  /** Why a seam shows, in words, or null where none does. */
  readonly why: string | null;
}

/**
 * Report what inspecting a seam found.
 *
 * @param seam - As inspected.
 * @param axis - Along which.
 * @returns The same in as many figures as mean something, and why.
 */
export function reportInspectedSeam(seam: InspectedSeam, axis: 'x' | 'y'): InspectedSeamReport {
  const { seamScore, steps, light, colour, joints, mirror, brokenBy, courseOff } = seam;
  return {
    seamScore: toFigures(seamScore, 6),
    seamless: seam.seamless,
    why: whySeam(seam, axis),
    steps: toFigures(steps, 4),
    light: toFigures(light, 4),
    colour: toFigures(colour, 4),
    joints: toFigures(joints, 4),
    mirror: toFigures(mirror, 4),
    lightStep: toFigures(seam.lightStep, 4),
    colourStep: toFigures(seam.colourStep, 4),
    brokenBy: brokenBy === null ? null : toFigures(brokenBy, 3),
    courseOff: courseOff === null ? null : toFigures(courseOff, 3),
  };
}
