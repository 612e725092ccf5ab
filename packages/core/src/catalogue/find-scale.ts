import { outOfRange } from '../errors/out-of-range.js';
import { readLength, typedMm } from '../units/read-length.js';
import { type ModelScale, modelScale } from '../units/units.js';
import { nearNames } from './near-names.js';
import { perFoot } from './per-foot.js';
import type { ScaleEntry, ScaleRegion } from './scale-entry.js';
import { scales } from './scales.js';

/** A model scale, and what it was called. */
export interface NamedScale {
  /** `N-UK`, or null where a ratio or a length to the foot was typed. */
  readonly name: string | null;
  /** Real over model. */
  readonly ratio: ModelScale;
  /** Where the name means that, or null. */
  readonly region: ScaleRegion | null;
  /** Where that comes from. */
  readonly source: string;
}

/** What a caller may say beside the scale itself. */
export interface FindScaleOptions {
  /** Where short names are meant, upper or lower case: UK, EU, US, JP or FR; anywhere by default. */
  readonly region?: string;
  /** The same where neither this nor the name itself says. */
  readonly usualRegion?: string;
  /** What the scale is for, as the user knows it; `scale` by default. */
  readonly name?: string;
}

const regions: readonly ScaleRegion[] = ['UK', 'EU', 'US', 'JP', 'FR'];
const largestRatio = 10_000;
const regionAtEnd = /[- ]\(?(UK|EU|US|JP|FR)\)?$/i;

/**
 * Find a model scale.
 *
 * @param text - A ratio (`1:148`, `1/76.2`), a length to the foot (`4mm/ft`), or a name, alone
 *   (`OO`) or with its region (`N-UK`), perhaps with a narrow-gauge letter (`H0e`).
 * @param options - Where short names are meant.
 * @returns Its ratio, and the one name it goes by.
 * @throws RangeError when it is none of these, of another region than the one wanted, or a name that
 *   means several: their list is in the message.
 */
export function findScale(text: string, options: FindScaleOptions = {}): NamedScale {
  const { name = 'scale' } = options;
  const label = text
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/^(?:gauge|scale) (?=.)|(?<=.) (?:gauge|scale)$/i, '');
  const region = regionMeant(label, options);
  if (region === 'another') {
    const wanted = options.region?.trim().toUpperCase() ?? '';
    throw outOfRange(`a scale without a region, or of region ${wanted},`, name, text);
  }
  const measured = readRatio(label, name) ?? readLengthToTheFoot(label, name);
  if (measured) return measured;
  const found = findNamed(label, region);
  const [first] = found;
  if (first === undefined) throw unknownScale(label, name);
  if (new Set(found.map(({ ratio }) => ratio)).size > 1) {
    const choices = found.map((entry) => `${entry.name} (1:${ratioText(entry.ratio)})`);
    throw outOfRange(`one of ${choices.join(', ')} or a ratio`, name, text);
  }
  return {
    name: first.name,
    ratio: modelScale(first.ratio),
    region: first.region,
    source: first.source,
  };
}

// A name that says its own region is not to be of another than is told, and needs no usual one.
function regionMeant(label: string, options: FindScaleOptions): ScaleRegion | null | 'another' {
  const [told, usual] = [toRegion(options.region), toRegion(options.usualRegion)];
  const typed = regionAtEnd.exec(label)?.[1]?.toUpperCase();
  if (typed === undefined) return told ?? usual;
  return told === null || told === typed ? told : 'another';
}

function toRegion(text: string | undefined): ScaleRegion | null {
  if (text === undefined) return null;
  const region = regions.find((known) => known === text.trim().toUpperCase());
  if (!region) throw outOfRange(`one of ${regions.join(', ')}`, 'region', text);
  return region;
}

function readRatio(text: string, name: string): NamedScale | null {
  const [, model, real] = /^(\d+(?:\.\d+)?) ?[:/] ?(\d+(?:\.\d+)?)$/.exec(text) ?? [];
  // 17/64 is a name: that much of an inch to the foot.
  if (model === undefined || real === undefined || model === '17') return null;
  const ratio = Number(real);
  if (Number(model) !== 1 || !(ratio >= 1 && ratio <= largestRatio)) {
    throw outOfRange(`a ratio from 1:1 to 1:${largestRatio}, such as 1:148,`, name, text);
  }
  return { name: null, ratio: modelScale(ratio), region: null, source: 'the ratio as given' };
}

function readLengthToTheFoot(text: string, name: string): NamedScale | null {
  const foot = /^(.+?) ?(?:\/|=|per|to the|to) ?(?:1 ?)?(?:ft|foot|')$/i;
  const length = readLength(foot.exec(text)?.[1] ?? '');
  if (length?.unit == null) return null;
  const ratio = perFoot(typedMm(length));
  if (!(ratio >= 1 && ratio <= largestRatio)) {
    throw outOfRange('a length to the foot such as 4mm/ft', name, text);
  }
  return {
    name: null,
    ratio: modelScale(ratio),
    region: null,
    source: 'the length to the foot as given; 1 ft = 304.8 mm exactly',
  };
}

// `Ii` is size I on an industrial railway's gauge, `ii` is size II: so as typed comes first.
function findNamed(label: string, region: ScaleRegion | null): readonly ScaleEntry[] {
  // Not after a figure, though `0m` is O: `1e` is half a number, not size I on a narrow gauge.
  const [, stem, suffix] = /^(?![1-9]\d*[meifp]$)(.+?)([meifp]|n\d[\d½/.]*)$/.exec(label) ?? [];
  // The letters are NEM's, the n with a gauge in feet or inches NMRA's; the ratio stays.
  const home = region ?? (suffix?.startsWith('n') === true ? 'US' : 'EU');
  for (const fold of [asTyped, upper]) {
    const whole = findWhole(label, region, fold);
    if (whole.length > 0) return whole;
    const narrow = stem === undefined ? [] : findWhole(stem, home, fold);
    if (narrow.length > 0) return narrow;
  }
  return [];
}

function findWhole(
  label: string,
  region: ScaleRegion | null,
  fold: (text: string) => string,
): readonly ScaleEntry[] {
  const full = scales.filter((entry) => fold(entry.name) === fold(label));
  const [, stem, typedRegion] = /^(.+?)[- ]\(?(UK|EU|US|JP|FR)\)?$/i.exec(label) ?? [];
  if (stem !== undefined && typedRegion !== undefined) {
    return full.length > 0 ? full : findInRegion(stem, toRegion(typedRegion), fold);
  }
  const here = findInRegion(label, region, fold);
  if (here.length > 0) return here;
  const anywhere = scales.filter(({ short }) => isAmong(short, label, fold));
  return anywhere.length > 0 ? anywhere : full;
}

function findInRegion(
  label: string,
  region: ScaleRegion | null,
  fold: (text: string) => string,
): readonly ScaleEntry[] {
  if (region === null) return [];
  const here = scales.filter(
    (entry) => entry.region === region && isAmong([...entry.short, ...entry.inRegion], label, fold),
  );
  // France follows NEM but for O.
  return here.length === 0 && region === 'FR' ? findInRegion(label, 'EU', fold) : here;
}

function isAmong(names: readonly string[], label: string, fold: (text: string) => string): boolean {
  // Nought for the letter, in names that are nothing else.
  const spelt = /^[0o]{1,3}9?$/i.test(label) ? label.replace(/0/g, 'O') : label;
  return names.some((name) => fold(name) === fold(spelt));
}

function asTyped(text: string): string {
  return text;
}

function upper(text: string): string {
  return text.toUpperCase();
}

function ratioText(ratio: number): string {
  return String(Number(ratio.toFixed(4)));
}

function unknownScale(label: string, name: string): RangeError {
  if (/^\d{1,5}(\.\d{1,4})?$/.test(label))
    return outOfRange(`a ratio such as 1:${label}`, name, label);
  const near = nearNames(
    label,
    scales.map((entry) => entry.name),
  );
  const meant = near.length > 0 ? ` (${near.join(', ')}?)` : ' such as N-UK';
  return outOfRange(`a ratio such as 1:148 or the name of a scale${meant}`, name, label);
}
