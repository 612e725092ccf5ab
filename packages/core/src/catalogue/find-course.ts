import { outOfRange } from '../errors/out-of-range.js';
import type { Reference } from '../surface/measurement.js';
import { formatLength } from '../units/format-length.js';
import { parseRealLength } from '../units/parse-length.js';
import { readLength, typedMm } from '../units/read-length.js';
import { type RealMm, realMm } from '../units/units.js';
import { blocks } from './blocks.js';
import { bricks } from './bricks.js';
import type { CourseEntry } from './course-entry.js';
import { nearNames } from './near-names.js';
import { roofing, slateEntry } from './roofing.js';
import { timber } from './timber.js';

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

/** A course whose height the user gave is taken as good to half a per cent (k = 1). */
const ownUncertainty = 0.005;

const entries: readonly CourseEntry[] = [...bricks, ...blocks, ...roofing, ...timber];
const byId: ReadonlyMap<string, CourseEntry> = new Map(
  entries.flatMap((entry) => [entry.id, ...entry.alsoCalled].map((id) => [id, entry])),
);

/**
 * Find what a picture's courses are.
 *
 * @param text - A catalogue id (`uk-metric`), a slate and its lap (`slate 500 lap 100`), or the
 *   course's own height, bed joint to bed joint (`75mm`).
 * @param name - What the course is for, as the user knows it.
 * @returns What the catalogue holds under that name, or the height as given under the id `own`.
 * @throws RangeError when it is none of these; ids near it are in the message.
 */
export function findCourse(text: string, name = 'course'): CourseReference {
  const id = text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const entry = byId.get(id) ?? readSlate(text, name);
  if (entry) return toReference(entry);
  if (readLength(text)) return ownCourse(parseRealLength(text, name));
  const near = nearNames(id, byId.keys());
  const meant = near.length > 0 ? ` (${near.join(', ')}?)` : ' such as uk-metric';
  throw outOfRange(`the id of a course${meant} or its height such as 75mm`, name, text);
}

/**
 * Find other formats that a course could be taken for.
 *
 * @param course - Of brick or block.
 * @param within - How near, as a fraction of the course; 2 % by default.
 * @returns Bricks and blocks of nearly that course, nearest first, without those of the very same.
 */
export function nearFormats(course: CourseReference, within = 0.02): readonly CourseReference[] {
  const apart = (entry: CourseEntry): number => Math.abs(entry.course / course.size - 1);
  return [...bricks, ...blocks]
    .filter((entry) => entry.id !== course.id && apart(entry) > 1e-6 && apart(entry) <= within)
    .sort((a, b) => apart(a) - apart(b))
    .map(toReference);
}

function readSlate(text: string, name: string): CourseEntry | null {
  const slate = /^\s*slate\s+(\S.*?)\s*(?:,\s*)?lap\s+(.+?)\s*$/i.exec(text);
  const [length, lap] = [readLength(slate?.[1] ?? ''), readLength(slate?.[2] ?? '')];
  if (!length || !lap) return null;
  const [lengthMm, lapMm] = [typedMm(length), typedMm(lap)];
  if (!(lapMm < lengthMm)) throw outOfRange('a lap shorter than the slate', name, text);
  return slateEntry(lengthMm, lapMm);
}

function ownCourse(height: RealMm): CourseReference {
  return {
    id: 'own',
    name: `course of ${formatLength(height)}`,
    size: height,
    uncertainty: ownUncertainty,
    source: 'as given',
    brick: null,
  };
}

function toReference(entry: CourseEntry): CourseReference {
  const { id, name, course, tolerance, source, stretcher, header, joint } = entry;
  return {
    id,
    name,
    size: realMm(course),
    // Anywhere in the band alike: JCGM 100:2008 (GUM), 4.3.7.
    uncertainty: tolerance / Math.sqrt(3) / course,
    source,
    brick: stretcher === null ? null : toUnit(stretcher, header, joint),
  };
}

function toUnit(stretcher: number, header: number | null, joint: number | null): CourseUnit {
  return {
    stretcher: realMm(stretcher),
    header: header === null ? null : realMm(header),
    joint: joint === null ? null : realMm(joint),
  };
}
