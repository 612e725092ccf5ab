/** A length as typed. */
export interface TypedLength {
  /** Its number, in its own unit. */
  readonly value: Fraction;
  /** Its unit, or null where none was typed. */
  readonly unit: LengthUnit | null;
}

/** A unit of length people type. */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft';

/** Two whole numbers, so that `4.1m` is 4100 mm and not a bit less. */
interface Fraction {
  readonly above: number;
  readonly below: number;
}

/**
 * The longest length that may be meant: a thousand kilometres, in mm. Past it a finger slipped.
 */
const longestMm = 1e9;

/** The shortest that may be meant, in mm: a nanometre. */
const shortestMm = 1e-6;

// 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (International Yard and Pound Agreement, 1959).
const inMm: Readonly<Record<LengthUnit, Fraction>> = {
  mm: { above: 1, below: 1 },
  cm: { above: 10, below: 1 },
  m: { above: 1000, below: 1 },
  in: { above: 254, below: 10 },
  ft: { above: 3048, below: 10 },
};

const units: ReadonlyMap<string, LengthUnit> = new Map([
  ['mm', 'mm'],
  ['cm', 'cm'],
  ['m', 'm'],
  ['in', 'in'],
  ['inch', 'in'],
  ['inches', 'in'],
  ['"', 'in'],
  ['ft', 'ft'],
  ['foot', 'ft'],
  ['feet', 'ft'],
  ["'", 'ft'],
]);

// ASCII digits only, and no sign, exponent or hexadecimal: Number() alone would take '', '0x10' and
// '1e309', parseFloat() would take '12mmm'.
// 20 places: a number that a program prints in full (83.33333333333333) is a length too.
const decimal = String.raw`\d{1,12}(?:\.\d{1,20})?|\.\d{1,20}`;
const mixed = String.raw`(?:(\d{1,6})[ -])?(\d{1,6})\/(\d{1,6})`;
const number = new RegExp(`^(?:(${decimal})|${mixed})$`);
const feetAndInches = /^(\d{1,9}) ?(?:ft|foot|feet|') ?(.+?)(?: ?(?:in|inch|inches|"))?$/;
const numberAndUnit = /^([\d./ -]*\d) ?(mm|cm|m|in|inch|inches|"|ft|foot|feet|')?$/;

/**
 * Read a length without judging what it is for.
 *
 * @param text - As typed: `120mm`, `7 5/8in`, `8ft6in`, `8'6"`, `75`.
 * @returns Its number and unit, or null when it is no length.
 */
export function readLength(text: string): TypedLength | null {
  // Drawings and web pages print primes and curly quotes where a keyboard has ' and ".
  const plain = text.trim().replace(/[′’]/g, "'").replace(/[″”]/g, '"').toLowerCase();
  const simple = numberAndUnit.exec(plain);
  if (simple?.[1] !== undefined) {
    const value = readNumber(simple[1]);
    return value && { value, unit: units.get(simple[2] ?? '') ?? null };
  }
  const [, feet, inches] = feetAndInches.exec(plain) ?? [];
  const rest = inches === undefined ? null : readNumber(inches);
  // 8ft14in is a slip of the finger, not 9ft2in.
  if (feet === undefined || !rest || rest.above >= 12 * rest.below) return null;
  const above = Number(feet) * 12 * rest.below + rest.above;
  return { value: { above, below: rest.below }, unit: 'in' };
}

/**
 * Bring a typed length to millimetres.
 *
 * @param length - As read.
 * @param bare - The unit of a bare number.
 * @returns Millimetres, or NaN when 0 or past what may be meant.
 */
export function typedMm(length: TypedLength, bare: LengthUnit = 'mm'): number {
  const unit = inMm[length.unit ?? bare];
  const mm = (length.value.above * unit.above) / (length.value.below * unit.below);
  return mm >= shortestMm && mm <= longestMm ? mm : NaN;
}

function readNumber(text: string): Fraction | null {
  const [, decimals, whole = '0', above, below] = number.exec(text) ?? [];
  if (decimals !== undefined) {
    const places = decimals.length - 1 - decimals.indexOf('.');
    if (!decimals.includes('.')) return { above: Number(decimals), below: 1 };
    return { above: Number(decimals.replace('.', '')), below: 10 ** places };
  }
  if (above === undefined || below === undefined || Number(below) === 0) return null;
  return { above: Number(whole) * Number(below) + Number(above), below: Number(below) };
}
