import { outOfRange } from '../../errors/out-of-range.js';
import { profiles } from '../../finish/relief/profiles/index.js';
import { dressReliefFields, type DressReliefValues } from '../build/fields/part-fields.js';
import { readFields } from '../build/fields/field.js';
import type { DressRelief } from './dress-relief-options.js';

/**
 * Take what outlines are in relief from one text.
 *
 * @param text - A profile or a section, and sizes after commas: `plate-girder,flange=40mm,leg=100mm`, `panel,sunk`.
 * @param name - What it is for, in the error.
 * @returns What they are.
 * @throws RangeError when it is none of these.
 */
export function parseDressRelief(text: string, name: string): DressRelief {
  const [kind = '', ...sizes] = text.split(',').map((part) => part.trim());
  const isProfile = profiles.some(({ id }) => id === kind) || !/\d/.test(kind);
  const written: Record<string, unknown> = { [isProfile ? 'profile' : 'section']: kind };
  for (const size of sizes) {
    const [, key = '', value] = /^([^=]*)(?:=(.*))?$/s.exec(size) ?? [];
    const known = key.trim().replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
    if (!Object.hasOwn(dressReliefFields, known) || Object.hasOwn(written, known)) {
      const names = Object.keys(dressReliefFields).filter((one) => !kinds.includes(one));
      throw outOfRange(`sizes by name, each once (${names.join(', ')}),`, name, size);
    }
    const isSwitch = switches.includes(known);
    if ((value === undefined) !== isSwitch)
      throw outOfRange(isSwitch ? `${known} alone` : `${known}= and its value`, name, size);
    written[known] = isSwitch ? true : value;
  }
  return toDressRelief(readFields(dressReliefFields, written, (_, take) => take(name)));
}

const kinds = ['section', 'profile'];
const switches = ['sunk', 'upright'];

/**
 * Bring what is written of relief to what it means.
 *
 * @param values - As it is written.
 * @returns What outlines are.
 */
export function toDressRelief(values: Partial<DressReliefValues>): DressRelief {
  const { sunk, upright, splice, ...others } = values;
  return {
    ...others,
    ...(sunk !== undefined && { isSunk: sunk }),
    ...(upright !== undefined && { isUpright: upright }),
    ...(splice !== undefined && { splices: splice }),
  };
}
