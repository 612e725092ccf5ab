import { outOfRange } from '../errors/out-of-range.js';
import { formatLength } from '../units/format-length.js';
import { parseRealLength } from '../units/parse-length.js';
import { readLength, typedMm } from '../units/read-length.js';
import type { RealMm } from '../units/units.js';
import { blocks } from './blocks.js';
import { bricks } from './bricks.js';
import type { CourseEntry } from './course-entry.js';
import { type CourseReference, toCourseReference } from './course-reference.js';
import { nearNames } from './near-names.js';
import { type OwnReference, toCourseEntry } from './own-reference.js';
import { roofing, slateEntry } from './roofing.js';
import { timber } from './timber.js';

export type { CourseReference } from './course-reference.js';

/** A course whose height the user gave is taken as good to half a per cent (k = 1). */
const ownUncertainty = 0.005;

const entries: readonly CourseEntry[] = [...bricks, ...blocks, ...roofing, ...timber];
const byId: ReadonlyMap<string, CourseEntry> = new Map(
  entries.flatMap((entry) => [entry.id, ...entry.alsoCalled].map((id) => [id, entry])),
);

/**
 * Find an entry by the id that it calls itself by.
 *
 * @param id - An id (`uk-metric`).
 * @returns It, or null where the catalogue has none of that id.
 */
export function findCourseEntry(id: string): CourseEntry | null {
  const entry = byId.get(id);
  return entry?.id === id ? entry : null;
}

/**
 * Find what a picture's courses are.
 *
 * @param text - A catalogue id (`uk-metric`), a slate and its lap (`slate 500 lap 100`), or the
 *   course's own height, bed joint to bed joint (`75mm`).
 * @param name - What the course is for, as the user knows it.
 * @param own - References beside the catalogue's, by ids that it has not.
 * @returns What the catalogue holds, or they, under that name, or the height as given under the id `own`.
 * @throws RangeError when it is none of these; ids near it are in the message.
 */
export function findCourse(
  text: string,
  name = 'course',
  own: readonly OwnReference[] = [],
): CourseReference {
  const id = text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const mine = own.find((reference) => reference.id === id);
  const entry = byId.get(id) ?? (mine ? toCourseEntry(mine) : readSlate(text, name));
  if (entry) return toCourseReference(entry);
  if (readLength(text)) return ownCourse(parseRealLength(text, name));
  const near = nearNames(id, [...byId.keys(), ...own.map((reference) => reference.id)]);
  const meant = near.length > 0 ? ` (${near.join(', ')}?)` : ' such as uk-metric';
  throw outOfRange(`the id of a course${meant} or its height such as 75mm`, name, text);
}

function readSlate(text: string, name: string): CourseEntry | null {
  const slate = /^slate (.+?),? lap (.+)$/i.exec(text.trim().replace(/\s+/g, ' ').slice(0, 80));
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
    source: 'as given, taken as good to half a per cent',
    brick: null,
  };
}
