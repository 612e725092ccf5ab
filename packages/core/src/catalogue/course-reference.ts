import type { Reference } from '../surface/measurement.js';
import { type RealMm, realMm } from '../units/units.js';
import { type CourseEntry, isLaidDry } from './course-entry.js';

/** What lies along a course. */
export interface CourseUnit {
  /** One brick, block or tile with its joint. */
  readonly stretcher: RealMm;
  /** One header with its joint, or null where there are none. */
  readonly header: RealMm | null;
  /** Mortar, or null where not stated. */
  readonly joint: RealMm | null;
}

/** A course to hold against a picture: its `size` is its height, bed joint to bed joint. */
export interface CourseReference extends Reference {
  /** What lies along it, or null where not known. */
  readonly brick: CourseUnit | null;
}

/**
 * Turn a catalogue entry into what is held against a picture.
 *
 * @param entry - Of the catalogue.
 * @returns The same, branded, with its tolerance as a standard uncertainty.
 */
export function toCourseReference(entry: CourseEntry): CourseReference {
  const { id, name, kind, course, tolerance, stretcher, header, joint } = entry;
  return {
    id,
    name,
    size: realMm(course),
    // Anywhere in the band alike: JCGM 100:2008 (GUM), 4.3.7.
    uncertainty: tolerance / Math.sqrt(3) / course,
    source: `${entry.source}; ${entry.toleranceSource}`,
    ...(isLaidDry(kind) && { laidDry: true }),
    brick:
      stretcher === null
        ? null
        : { stretcher: realMm(stretcher), header: known(header), joint: known(joint) },
  };
}

function known(mm: number | null): RealMm | null {
  return mm === null ? null : realMm(mm);
}

/**
 * Keep of a course what a measurement tells.
 *
 * @param course - What was held against a picture.
 * @returns The same without what lies along it.
 */
export function withoutUnit(course: CourseReference): Reference {
  const { id, name, size, uncertainty, source, laidDry } = course;
  return { id, name, size, uncertainty, source, ...(laidDry === true && { laidDry }) };
}
