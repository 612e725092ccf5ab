import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Warning } from '../../errors/warning.js';
import type { Lattice, PerAxis, UncertaintyPart } from '../../surface/measurement.js';
import type { CourseFit } from '../find-courses.js';
import { nameFaces } from './name-faces.js';
import { toLattice } from '../to-lattice.js';
import { warnOfFormat } from './warn-of-format.js';
import { weighBrick } from './weigh-brick.js';

/** What courses say of a picture's scale, once it is known what they are. */
export interface CoursesScale {
  /** Real millimetres per pixel of the level picture. */
  readonly mmPerPx: PerAxis<number>;
  /** What the picture puts it out by: perspective and lens, each once. */
  readonly parts: readonly UncertaintyPart[];
  /** The joints, the faces of its bricks named by the format. */
  readonly lattice: Lattice;
  /** That the bricks are of another format, or null. */
  readonly doubt: Warning | null;
  /** 0 to 1: no answer that rests on them is surer. */
  readonly mostConfidence: number;
}

/** What is known beside the courses and what they are. */
export interface ScaleCoursesOptions {
  /** What slant that was left in the photo puts the scale out by (k = 1), in per cent. */
  readonly left: number;
  /** References beside the catalogue's that the courses could be as well; none unless told. */
  readonly own?: readonly CourseReference[] | undefined;
}

/** Courses of another format than the one named are seldom what was said: as spans that disagree. */
const doubted = 0.3;

/**
 * Turn courses that were found into a scale, by what they are. Pixels are taken as square; where
 * perspective leaves that open, the bricks have a say in it.
 *
 * @param fit - As found.
 * @param reference - How high one course really is, and what lies along it.
 * @param options - What else is known.
 * @returns The scale along both axes.
 */
export function scaleCourses(
  fit: CourseFit,
  reference: CourseReference,
  options: ScaleCoursesOptions,
): CoursesScale {
  const { left, own = [] } = options;
  const lattice = nameFaces(toLattice(fit), reference);
  const uncertainty = Math.hypot(fit.uncertainty, fit.aspect);
  const doubt = warnOfFormat(lattice, { reference, uncertainty, own });
  // Of a photo that was left as it is, courses that fall to one side lie closer together than they
  // measure down the picture.
  const fall = fit.rectification === null ? Math.cos((fit.tilt * Math.PI) / 180) : 1;
  const here = reference.size / (fit.course * fall);
  const along = weighBrick(lattice, reference, fit.aspect);
  const there = here * along.ratio;
  return {
    mmPerPx: fit.axis === 'y' ? { x: there, y: here } : { x: here, y: there },
    parts: [
      {
        source: 'perspective',
        percent: Math.hypot(100 * fit.parts.perspective, 100 * along.uncertainty, left),
      },
      { source: 'lens', percent: 100 * fit.parts.lens },
    ],
    lattice,
    doubt,
    mostConfidence: doubt === null ? 1 : doubted,
  };
}
