import { inches } from '../units/inches.js';
import type { CourseEntry } from './course-entry.js';

const slateGuide = "a slate supplier's guide to BS 5534: gauge = (length - lap) / 2";
const oldText = 'a building-construction text of the 19th century';

/** Roofs are set out by hand from eaves to ridge: 2 mm a course (common practice, no source). */
const handSet = [2, 'set out by hand within 2 mm, common practice, no source'] as const;

type Band = readonly [tolerance: number, source: string];

/** Sheets lap and stretch a little: half a millimetre a pitch. */
const sheetBand: Band = [0.5, 'laid within 0.5 mm a pitch, common practice, no source'];

function roof(
  [id, ...alsoCalled]: readonly [string, ...string[]],
  name: string,
  [course, across, band = handSet]: readonly [number, (number | null)?, Band?],
  source: string,
): CourseEntry {
  return {
    id,
    alsoCalled,
    name,
    kind: 'roofing',
    course,
    tolerance: band[0],
    toleranceSource: band[1],
    unit: null,
    joint: null,
    stretcher: across ?? null,
    header: null,
    source,
  };
}

/**
 * Make the entry of a slate laid to a lap, double lap.
 *
 * @param length - Of the slate, mm.
 * @param lap - Its headlap, mm, above 0 and shorter than the slate.
 * @returns The entry; its course is the gauge, what shows of each slate: (length - lap) / 2.
 */
export function slateEntry(length: number, lap: number): CourseEntry {
  const course = (length - lap) / 2;
  const name = `slate ${length} mm long, ${lap} mm lap`;
  return roof([`slate-${length}-lap-${lap}`], name, [course], slateGuide);
}

/** Roofs, a row each: the course is what shows of one tile or slate, its gauge. */
export const roofing: readonly CourseEntry[] = [
  slateEntry(600, 100),
  slateEntry(600, 110),
  slateEntry(500, 100),
  slateEntry(500, 90),
  slateEntry(400, 75),
  roof(
    ['slate-countess-lap-3in'],
    'Countess slate 20 x 10 in, centre-nailed, 3 in lap',
    [inches(8.5), inches(10)],
    oldText,
  ),
  roof(
    ['slate-countess-lap-4in'],
    'Countess slate 20 x 10 in, centre-nailed, 4 in lap',
    [inches(8), inches(10)],
    oldText,
  ),
  roof(
    ['slate-countess-head-nailed-lap-3in'],
    'Countess slate 20 x 10 in, head-nailed, 3 in lap',
    [inches(8), inches(10)],
    oldText,
  ),
  roof(
    ['slate-countess-head-nailed-lap-4in'],
    'Countess slate 20 x 10 in, head-nailed, 4 in lap',
    [inches(7.5), inches(10)],
    oldText,
  ),
  roof(
    ['slate-ladies-head-nailed-lap-3in'],
    'Ladies slate 16 x 8 in, head-nailed, 3 in lap',
    [inches(6), inches(8)],
    oldText,
  ),
  roof(
    ['slate-duchess-lap-3in'],
    'Duchess slate 24 x 12 in, centre-nailed, 3 in lap',
    [inches(10.5), inches(12)],
    `${oldText}, for its rule`,
  ),
  roof(
    ['plain-tile'],
    'plain tile 265 x 165, 65 mm lap',
    [100, 165],
    'tile guides, 60 a square metre',
  ),
  roof(
    ['interlocking-tile-lap-75'],
    'interlocking tile 420 x 332, 75 mm lap',
    [345, 301],
    "a maker's data sheet, 9.63 a square metre",
  ),
  roof(
    ['interlocking-tile-lap-100'],
    'interlocking tile 420 x 332, 100 mm lap',
    [320, 301],
    "a maker's data sheet, 10.38 a square metre",
  ),
  roof(
    ['interlocking-plain-tile-lap-75'],
    'interlocking plain tile 330 x 226, 75 mm lap',
    [255, 191],
    "a maker's data sheet, 20.5 a square metre",
  ),
  roof(
    ['interlocking-plain-tile-lap-100'],
    'interlocking plain tile 330 x 226, 100 mm lap',
    [230, 191],
    "a maker's data sheet, 22.7 a square metre",
  ),
  roof(
    ['pantile', 'uk-pantile'],
    'UK clay pantile 342 x 241',
    [272.5, 200, [27, 'within 10 %, from memory of pantile practice']],
    'from memory of pantile practice: gauge 265 to 280, cover about 200',
  ),
  roof(
    ['corrugated-imperial'],
    'corrugated iron, crest to crest 3 in',
    [inches(3), null, sheetBand],
    'common practice, no source, for the 3 in pitch',
  ),
  roof(
    ['corrugated-metric'],
    'corrugated iron, crest to crest 76 mm',
    [76, null, sheetBand],
    'a New Zealand metal-roof code, crests at 76 mm, 17.5 mm deep',
  ),
];
