import type { FoundJoints } from '../surface/found-joints.js';
import type { Measurement, MeasurementMethod } from '../surface/measurement.js';
import { formatLength } from '../units/format-length.js';
import { inDigits, uncertaintyInWords } from '../units/in-digits.js';
import { textWidth } from './lay-text.js';
import { isInStrips, leastShown } from './mark-joints.js';
import type { OverlayContent } from './overlay-content.js';

/** What a line drawn on the photo means. */
export type Sign = 'bed' | 'bridged' | 'perpend' | 'mark' | 'hatch';

/** A piece of the caption; places are from its top left corner, in pixels. */
interface CaptionPiece {
  /** Left end. */
  readonly x: number;
  /** The line on which its letters stand. */
  readonly y: number;
  /** Height of a capital. */
  readonly size: number;
  /** Its words. */
  readonly text: string;
  /** The sign that stands before the words, or null. */
  readonly sign: Sign | null;
}

/** The caption below the photo. */
export interface Caption {
  /** Its height in pixels. */
  readonly height: number;
  /** What it says. */
  readonly pieces: readonly CaptionPiece[];
}

/** Room that a sign takes before its words, in units. */
export const signWidth = 30;

const headSize = 22;
const size = 11;
const leading = 21;

const ways: Readonly<Record<MeasurementMethod, string>> = {
  span: 'measured by known length',
  count: 'measured by courses that were counted',
  courses: 'measured by the courses found',
  rectangle: 'measured by a rectangle',
  section: 'measured by the depth of a rolled section',
  distance: 'estimated from focal length and distance',
};

/** Where the caption goes, and how large the photo above it is drawn. */
interface CaptionRoom {
  /** Columns it may take. */
  readonly width: number;
  /** A thousandth of the photo's long side as drawn. */
  readonly unit: number;
  /** Size of the photo as drawn over its own. */
  readonly drawnAt: number;
  /** Units of the page to a pixel in which joints are told. */
  readonly units: number;
}

/**
 * Set the caption: what was found, what the lines mean, how it was measured and how sure that is.
 *
 * @param content - What the overlay shows.
 * @param room - The room there is.
 * @returns Its lines, broken where they must be.
 */
export function planCaption(content: OverlayContent, room: CaptionRoom): Caption {
  const { unit, width } = room;
  const pieces: CaptionPiece[] = [];
  let y = 12 * unit + headSize * unit;
  let x = 0;
  const put = (text: string, letters: number, sign: Sign | null): void => {
    const before = sign === null ? 0 : signWidth * unit;
    const long = before + textWidth(text, letters);
    if (x > 0 && x + long > width) {
      x = 0;
      y += leading * unit;
    }
    pieces.push({ x, y, size: letters, text, sign });
    x += long;
  };

  const [head, beside] = headline(content);
  const large = Math.min(
    headSize * unit,
    (headSize * unit * width) / textWidth(head, headSize * unit),
  );
  put(head, large, null);
  x += 14 * unit;
  for (const line of breakWords(beside, size * unit, width)) put(line, size * unit, null);
  const signs = listSigns(content, room.units);
  if (signs.length > 0) {
    x = 0;
    y += 1.35 * leading * unit;
    for (const [sign, text] of signs) {
      put(text, size * unit, sign);
      x += 16 * unit;
    }
  }
  y += 0.25 * leading * unit;
  for (const fact of listFacts(content.measurement, room.drawnAt)) {
    for (const line of breakWords(fact, size * unit, width)) {
      x = 0;
      y += leading * unit;
      put(line, size * unit, null);
    }
  }
  return { height: y + 8 * unit, pieces };
}

function headline({ measurement, joints, spans }: OverlayContent): readonly [string, string] {
  const found = joints === null ? 0 : Math.max(0, joints.beds.length - 1);
  if (measurement === null) return [coursesInWords(found), 'found, how high is not known yet'];
  const { reference, method } = measurement;
  const told = formatLength(reference.size);
  const name = reference.name.includes(told) ? reference.name : `${reference.name}, ${told}`;
  const counted = spans.find(({ courses }) => courses !== null)?.courses;
  if (typeof counted === 'number') return [coursesInWords(counted), `counted, ${name}`];
  if (found > 0) return [coursesInWords(found), `found, ${name}`];
  const counting = spans.filter(({ used }) => used).length;
  if (counting > 1) return [`${counting} spans`, 'of known length'];
  return method === 'distance' ? ['an estimate', name] : [told, reference.name];
}

function coursesInWords(count: number): string {
  return count === 1 ? '1 course' : `${count} courses`;
}

function listSigns({ joints, spans, corners }: OverlayContent, units: number): [Sign, string][] {
  const signs = joints === null ? [] : signsOfJoints(joints, units);
  if (spans.some(({ courses }) => courses !== null)) signs.push(['mark', 'courses as counted']);
  else if (spans.length > 0) signs.push(['mark', 'marked by hand']);
  if (corners !== null) signs.push(['mark', 'rectangle marked by hand']);
  return signs;
}

function signsOfJoints(joints: FoundJoints, units: number): [Sign, string][] {
  const { beds, perpends, leftOut } = joints;
  const strips = isInStrips(joints, units) ? ', drawn in strips' : '';
  const signs: [Sign, string][] = [];
  if (beds.some(({ shows }) => shows >= leastShown))
    signs.push(['bed', `joint between courses${strips}`]);
  if (beds.some(({ shows }) => shows < leastShown)) {
    signs.push(['bridged', 'hardly shows, placed by the others']);
  }
  if (perpends.length > 0) signs.push(['perpend', 'joint in a course']);
  if (leftOut.length > 0) signs.push(['hatch', 'left out: shows no such joints']);
  return signs;
}

function listFacts(measurement: Measurement | null, drawnAt: number): string[] {
  const drawn =
    Math.abs(drawnAt - 1) < 0.001
      ? ''
      : `drawn at ${inDigits(100 * drawnAt, 2)} % of the photo’s size; `;
  const caution = `${drawn}not a survey: not for structural use`;
  if (measurement === null) {
    return ['not measured: say what the courses are, and it is', caution];
  }
  const { method, mmPerPx, lattice, uncertaintyPercent, rectification } = measurement;
  const where = rectification === null ? 'of the photo' : 'at the photo’s middle';
  const sides =
    mmPerPx.x === mmPerPx.y
      ? inDigits(mmPerPx.x)
      : `${inDigits(mmPerPx.x)} across and ${inDigits(mmPerPx.y)} down`;
  const course = lattice === null ? '' : `, each ${inDigits(lattice.course)} px ${where}`;
  // Confidence downwards: near certain must not read as certain.
  return [
    `${ways[method]}${course}; mm per pixel: ${sides}, give or take ${uncertaintyInWords(uncertaintyPercent)} %, confidence ${Math.floor(100 * measurement.confidence)} %`,
    caution,
  ];
}

function breakWords(text: string, letters: number, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, letters) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}
