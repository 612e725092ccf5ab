import { inches } from '../units/inches.js';
import type { CourseEntry } from './course-entry.js';

const practice = 'common practice, no source';
const claddingGuide = 'a cladding guide: cover = width - overlap';

function boards(
  id: string,
  name: string,
  [course, tolerance, why = practice]: readonly [number, number, string?],
  source: string,
): CourseEntry {
  const unknown = { unit: null, joint: null, stretcher: null, header: null, alsoCalled: [] };
  const toleranceSource = `laid within ${tolerance} mm, ${why}`;
  return { ...unknown, id, name, kind: 'timber', course, tolerance, toleranceSource, source };
}

// Sold by a width of which the joint takes 6 to 15 mm.
function lapped(kind: string, width: number): CourseEntry {
  const name = `${kind.replaceAll('-', ' ')} board, nominal ${width} mm`;
  const source = `a timber guide, for the width; the 6 to 15 mm the joint takes, ${practice}`;
  return boards(`${kind}-${width}`, name, [width - 10.5, 4.5], source);
}

/** Boarding and track, a row each: the course is what repeats, board to board, sleeper to sleeper. */
export const timber: readonly CourseEntry[] = [
  boards('featheredge-150', 'featheredge board 150 mm, 40 mm overlap', [110, 5], claddingGuide),
  boards('featheredge-200', 'featheredge board 200 mm, 50 mm overlap', [150, 5], claddingGuide),
  boards('weatherboard-6in', 'older UK weatherboard 6 in, 1 in lap', [127, 5], practice),
  ...[100, 150].map((width) => lapped('shiplap', width)),
  ...[100, 125, 150].map((width) => lapped('tongue-and-groove', width)),
  boards('floorboard-6in', 'old floorboard 6 in', [inches(6), 15], practice),
  boards('floorboard-7in', 'old floorboard 7 in', [inches(7), 18], practice),
  boards(
    'sleeper-spacing-uk',
    'UK sleepers, 24 to a 60 ft length',
    [inches((60 * 12) / 24), 76, 'from memory of permanent-way practice'],
    'from memory of permanent-way practice',
  ),
];

/** A thing with sizes that does not repeat. */
export interface ItemEntry {
  /** Unlike any other, kebab-case. */
  readonly id: string;
  /** As people say it. */
  readonly name: string;
  /** Length, width and height, mm. */
  readonly sizes: readonly [length: number, width: number, height: number];
  /** Where they come from. */
  readonly source: string;
}

/** Sleepers and ties. */
export const sleepers: readonly ItemEntry[] = [
  {
    id: 'sleeper-uk',
    name: 'UK timber sleeper 8 ft 6 in x 10 in x 5 in',
    sizes: [inches(102), inches(10), inches(5)],
    source: "a sleeper supplier's page",
  },
  {
    id: 'sleeper-uk-9ft',
    name: 'UK timber sleeper 9 ft x 10 in x 5 in, earlier',
    sizes: [inches(108), inches(10), inches(5)],
    source: "a sleeper supplier's page",
  },
  {
    id: 'tie-us',
    name: 'US tie 8 ft 6 in x 9 in x 7 in',
    sizes: [inches(102), inches(9), inches(7)],
    source: 'from memory of AREMA',
  },
];
