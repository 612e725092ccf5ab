import type { FoundJoints } from '../surface/found-joints.js';
import type { PerAxis } from '../surface/measurement.js';
import type { Canvas, Pen } from './canvas.js';
import { inks } from './inks.js';
import { meanCourse } from './mean-course.js';

/** The pens of one overlay. */
export interface Pens {
  /** For joints between courses. */
  readonly bed: Pen;
  /** For joints within courses. */
  readonly perpend: Pen;
  /** For what a person marked. */
  readonly mark: Pen;
  /** For what is left out. */
  readonly hatch: Pen;
  /** For words on the photo. */
  readonly label: Pen;
}

/**
 * Choose pens: as wide as the picture allows and the courses need.
 *
 * @param canvas - What they draw on.
 * @param scale - Pixels of the page for each of the photo's.
 * @param joints - As found, or null.
 * @returns One for each kind of thing.
 */
export function choosePens(
  canvas: Canvas,
  scale: PerAxis<number>,
  joints: FoundJoints | null,
): Pens {
  const { unit, photo } = canvas;
  const course = joints === null ? Infinity : meanCourse(joints) * scale[joints.axis];
  const width = Math.min(2 * unit, Math.max(1.15 * unit, 0.07 * course));
  const onPhoto = { casing: inks.dark, clip: photo };
  return {
    bed: { ...onPhoto, width, out: 0.5 * width, ink: inks.bed },
    perpend: { ...onPhoto, width, out: 0.5 * width, ink: inks.perpend },
    // Too dark a colour for a dark casing.
    mark: { ...onPhoto, casing: inks.paper, width: 2.4 * unit, out: 1.2 * unit, ink: inks.mark },
    hatch: { ...onPhoto, width: 0.9 * unit, out: 0.5 * unit, ink: inks.paper },
    label: { ...onPhoto, width: 1.6 * unit, out: 2.2 * unit, ink: inks.paper },
  };
}
