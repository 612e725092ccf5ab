import {
  BadField,
  type Fields,
  readFields,
  readNumber,
  readNumbers,
  readText,
  topFields,
} from '../../surface/fields.js';
import type { ColourTable } from './colour-table.js';
import { type PrinterProfile, printerSchema } from './printer-profile.js';

/** The file is of a version that this library does not know. */
export class NewerPrinter extends Error {}

const sizes = { min: 2, max: 33, whole: true };
const differences = { min: 0, max: 200 };
// Levels are kept to two decimals.
const rounding = 0.006;

/**
 * Read a printer's profile, believing nothing of it.
 *
 * @param text - Of the file.
 * @returns The profile: every level within 0 to 255, none that falls where more is asked for, and white bare.
 * @throws BadField when it is no such file, or holds what cannot be; its message names the key.
 * @throws NewerPrinter when it is of a later version.
 */
export function parsePrinter(text: string): PrinterProfile {
  const top = topFields(parseJson(text));
  checkSchema(top);
  return {
    strip: readNumber(top, 'strip', { min: 0, max: 31, whole: true }),
    darkest: readNumber(top, 'darkest', { min: 0, max: 100 }),
    inkLimitPercent: readNumber(top, 'inkLimitPercent', { min: 0, max: 300 }),
    offBefore: readNumber(top, 'offBefore', differences),
    offAfter: readNumber(top, 'offAfter', differences),
    metPercent: readNumber(top, 'metPercent', { min: 0, max: 100 }),
    unsteady: readNumber(top, 'unsteady', differences),
    table: readTable(readFields(top, 'table')),
  };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (cause) {
    throw new BadField('it is no JSON', { cause });
  }
}

function checkSchema(top: Fields): void {
  const schema = readText(top, 'schema');
  if (schema === printerSchema) return;
  const version = /^gaugerod\.printer\/(\d{1,6})$/.exec(schema)?.[1];
  if (version !== undefined && Number(version) > 1) {
    throw new NewerPrinter(`it is of version ${version}, and this gaugerod knows version 1`);
  }
  throw new BadField(`expected ${JSON.stringify(printerSchema)} for schema`);
}

function readTable(fields: Fields): ColourTable {
  const size = readNumber(fields, 'size', sizes);
  const levels = readNumbers(fields, 'levels', 3 * size ** 3);
  const wrong = levels.findIndex((level) => !(level >= 0 && level <= 255));
  if (wrong >= 0)
    throw new BadField(`table.levels holds ${levels[wrong] ?? ''}: expected 0 to 255`);
  if (levels.slice(-3).some((level) => level !== 255)) {
    throw new BadField('table.levels ends in ink: expected 255, 255, 255, for white is bare paper');
  }
  [size * size, size, 1].forEach((apart, channel) => {
    for (let corner = 0; corner < size ** 3; corner++) {
      if (Math.floor(corner / apart) % size === size - 1) continue;
      const [here, next] = [levels[3 * corner + channel]!, levels[3 * (corner + apart) + channel]!];
      if (next < here - rounding) {
        const fall = `from ${here} to ${next}`;
        throw new BadField(`table.levels falls ${fall} where more light is asked for`);
      }
    }
  });
  return { size, values: Float32Array.from(levels, (level) => level / 255) };
}
