import { limitsFor } from '../limits/limits.js';
import type { Homography } from '../numeric/homography.js';
import { invertHomography } from '../numeric/invert-homography.js';
import { px, type Px, realMm } from '../units/units.js';
import {
  BadField,
  type Fields,
  isNothing,
  readFields,
  readFlag,
  readNumber,
  readNumbers,
  readText,
  readWord,
  topFields,
} from './fields.js';
import type {
  CourseAxis,
  Lattice,
  Measurement,
  MeasurementMethod,
  PerAxis,
  Rectification,
  Reference,
  UncertaintyPart,
  UncertaintySource,
} from './measurement.js';
import { rectificationFault } from './rectification-fault.js';
import { type Sidecar, sidecarSchema, type SidecarPhoto } from './sidecar.js';

/** The file is of a version that this library does not know. */
export class NewerSidecar extends Error {}

const methods: readonly MeasurementMethod[] = [
  'span',
  'count',
  'courses',
  'rectangle',
  'section',
  'distance',
];

const axes: readonly CourseAxis[] = ['x', 'y'];

const sources: readonly UncertaintySource[] = [
  'fit',
  'marks',
  'reference',
  'perspective',
  'lens',
  'distance',
];

// A length may be told to be off by nearly all of itself; whatever is measured can be kept.
const percents = { min: 0, max: 1e4 };
const side = { min: 1, max: 1e6, whole: true };
const pixels = { min: 1e-3, max: 1e6 };
// Less than a pixel repeats nothing, and no photo holds it a number of times worth counting.
const periods = { min: 1, max: 1e6 };
// From a tenth of a micrometre to a hundred metres: everything that anyone photographs.
const millimetres = { min: 1e-4, max: 1e5 };
// Pixels are seldom more than a little longer than wide.
const maxAspect = 20;
// A course that was measured gives the scale exactly, but for a slant of the courses.
const maxApart = 0.05;
const maxNote = 10_000;
// Past these, two places of the photo would be one.
const lenses = { min: -0.3, max: 1 };

function checkDepth(text: string): void {
  const deepest = limitsFor('sidecar', {}).depth;
  let depth = 0;
  // Texts are passed over whole, so that brackets in them do not count.
  for (let at = 0, inText = false; at < text.length; at++) {
    const letter = text[at]!;
    if (letter === '"') inText = !inText;
    else if (inText && letter === '\\') at++;
    else if (!inText && '[{'.includes(letter)) depth++;
    else if (!inText && ']}'.includes(letter)) depth--;
    if (depth > deepest) throw new BadField('brackets are nested too deeply');
  }
}

function parseJson(text: string): unknown {
  checkDepth(text);
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new BadField('it holds no JSON', { cause });
  }
}

function checkSchema(fields: Fields): void {
  const { name, version } = sidecarSchema;
  const schema = readText(fields, 'schema');
  const [, found] = /^gaugerod\.surface\/(\d{1,6})$/.exec(schema) ?? [];
  if (Number(found) > version) {
    throw new NewerSidecar(`it is of version ${found ?? ''}, and version ${version} is read`);
  }
  readText(fields, 'schema', [
    new RegExp(`^${name.replace('.', '[.]')}/${version}$`),
    `"${name}/${version}"`,
  ]);
}

function readPhoto(fields: Fields): SidecarPhoto {
  return {
    file: readText(fields, 'file'),
    sha256: readText(fields, 'sha256', [/^[\da-f]{64}$/i, '64 hexadecimal digits']).toLowerCase(),
    width: readNumber(fields, 'width', side),
    height: readNumber(fields, 'height', side),
  };
}

function readScale(fields: Fields): PerAxis<number> {
  const x = readNumber(fields, 'x', millimetres);
  const y = readNumber(fields, 'y', millimetres);
  if (Math.max(x / y, y / x) > maxAspect) {
    throw new BadField(`${fields.at}x and ${fields.at}y differ ${maxAspect} times or more`);
  }
  return { x, y };
}

function readReference(fields: Fields): Reference {
  const uncertain = isNothing(fields, 'sizeUncertaintyPercent')
    ? 0
    : readNumber(fields, 'sizeUncertaintyPercent', { min: 0, max: 100 });
  return {
    id: readText(fields, 'id'),
    name: readText(fields, 'name'),
    size: realMm(readNumber(fields, 'sizeMm', { min: 1e-3, max: 1e7 })),
    uncertainty: uncertain / 100,
    source: readText(fields, 'source'),
    ...(!isNothing(fields, 'laidDry') && readFlag(fields, 'laidDry') && { laidDry: true }),
  };
}

function readRectification(fields: Fields): Rectification | null {
  const matrix = readMatrix(fields);
  try {
    invertHomography(matrix);
  } catch (cause) {
    throw new BadField(`${fields.at}matrix has no way back`, { cause });
  }
  const lens = isNothing(fields, 'lens') ? 0 : readNumber(fields, 'lens', lenses);
  return lens === 0 && isIdentity(matrix) ? null : { matrix, lens };
}

function readMatrix(fields: Fields): Homography {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = readNumbers(
    fields,
    'matrix',
    9,
  );
  return [a, b, c, d, e, f, g, h, i];
}

// A homography may be of any size: what counts is that it leaves every point where it is.
function isIdentity(matrix: Homography): boolean {
  const size = matrix[8];
  return matrix.every((value, index) => value === (index % 4 === 0 ? size : 0));
}

function readPx(fields: Fields, key: string, range = pixels): Px | null {
  return isNothing(fields, key) ? null : px(readNumber(fields, key, range));
}

function readLattice(fields: Fields, tile: Fields | null): Lattice {
  const course = px(readNumber(fields, 'coursePeriodPx', pixels));
  return {
    axis: isNothing(fields, 'axis') ? 'y' : readWord(fields, 'axis', axes),
    course,
    courseOffset: readNumber(fields, 'courseOffsetPx', { min: 0, max: course }),
    brick: readPx(fields, 'brickPeriodPx'),
    repeat: {
      x: tile === null ? null : readPx(tile, 'x', periods),
      y: tile === null ? null : readPx(tile, 'y', periods),
    },
    bond: isNothing(fields, 'bond') ? null : readText(fields, 'bond'),
  };
}

// Each source once at most; a file from before there was a budget has none.
function readBudget(fields: Fields): UncertaintyPart[] {
  if (isNothing(fields, 'uncertaintyBudget')) return [];
  const parts = readFields(fields, 'uncertaintyBudget');
  return sources.flatMap((source) =>
    isNothing(parts, source) ? [] : [{ source, percent: readNumber(parts, source, percents) }],
  );
}

function readMeasurement(fields: Fields): Measurement {
  const within = (key: string): Fields | null =>
    isNothing(fields, key) ? null : readFields(fields, key);
  const rectification = within('rectification');
  const tile = within('tile');
  const lattice = within('lattice');
  return {
    method: readWord(fields, 'method', methods),
    reference: readReference(readFields(fields, 'reference')),
    mmPerPx: readScale(readFields(fields, 'mmPerPx')),
    uncertaintyPercent: readNumber(fields, 'uncertaintyPercent', percents),
    budget: readBudget(fields),
    confidence: readNumber(fields, 'confidence', { min: 0, max: 1 }),
    rectification: rectification === null ? null : readRectification(rectification),
    lattice: lattice === null ? null : readLattice(lattice, tile),
  };
}

// Values that are each in range may still not be of one photo.
function checkTogether(photo: SidecarPhoto, measurement: Measurement): void {
  const { method, reference, mmPerPx, lattice, rectification } = measurement;
  const fault = rectification === null ? null : rectificationFault(rectification, photo);
  if (fault !== null) throw new BadField(`rectification ${fault}`);
  if (lattice === null) return;
  const { axis, course } = lattice;
  const side = axis === 'x' ? 'width' : 'height';
  if (rectification === null && course > photo[side]) {
    throw new BadField(
      `lattice.coursePeriodPx is ${course}, more than the ${photo[side]} of photo.${side}`,
    );
  }
  if (method !== 'courses' && method !== 'count') return;
  const real = course * mmPerPx[axis];
  if (Math.abs(real / reference.size - 1) > maxApart) {
    throw new BadField(
      `lattice.coursePeriodPx x mmPerPx.${axis} is ${real.toPrecision(4)} mm, but reference.sizeMm is ${reference.size}`,
    );
  }
}

function readNote(fields: Fields, key: string): string | null {
  if (isNothing(fields, key)) return null;
  const pattern = new RegExp(`^[^]{0,${maxNote}}$`);
  return readText(fields, key, [pattern, `a text of up to ${maxNote} letters`]);
}

/**
 * Read the text of a surface file. Keys it does not know are passed over; every value it does know
 * is checked.
 *
 * @param text - JSON.
 * @returns What it says.
 * @throws NewerSidecar when it is of a version not known yet.
 * @throws BadField when it is no such file or a value is missing, out of range, or
 *   contradicts another; names the keys.
 */
export function parseSidecar(text: string): Sidecar {
  const fields = topFields(parseJson(text));
  checkSchema(fields);
  const photo = readPhoto(readFields(fields, 'photo'));
  const measurement = readMeasurement(fields);
  checkTogether(photo, measurement);
  const finished = !isNothing(fields, 'finished') && readFlag(fields, 'finished');
  if (finished && measurement.rectification !== null) {
    throw new BadField('finished is true of a photo that rectification is to make level');
  }
  const plain = !isNothing(fields, 'plain') && readFlag(fields, 'plain');
  if (plain && (measurement.rectification ?? measurement.lattice) !== null) {
    throw new BadField('plain is true of a photo with a rectification or a lattice');
  }
  return {
    photo,
    measurement,
    ...(finished && { finished }),
    ...(plain && { plain }),
    licence: readNote(fields, 'licence'),
    credit: readNote(fields, 'credit'),
  };
}
