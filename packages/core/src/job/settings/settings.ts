import type { LimitOptions } from '../../limits/limits.js';
import type { OwnReference } from '../../catalogue/own-reference.js';

/** What may be set once for all commands, and is told of where it counts. */
export type ToldSetting =
  | 'region'
  | 'scale'
  | 'dpi'
  | 'paper'
  | 'margin'
  | 'printerX'
  | 'printerY'
  | 'printer'
  | 'dotGain'
  | 'inkLimit'
  | 'saturation'
  | 'sharpen';

/** What may be set once for all commands: a limit changes nothing of what is made, and is not told of. */
export type SettingName = ToldSetting | keyof LimitOptions;

/** One of those. */
export interface Setting {
  /** As an option would be typed; a path leads from the working folder, or from the root. */
  readonly text: string;
  /** The file that says so. */
  readonly file: string;
}

/** What a user set for all of their work. */
export interface Settings {
  /** What holds where neither an option nor a job file says more. */
  readonly values: Readonly<Partial<Record<SettingName, Setting>>>;
  /** References of their own. */
  readonly references: readonly OwnReference[];
  /** The file that keeps those, or would; null where the system has no place for it. */
  readonly referenceFile: string | null;
  /** All files that this was read from, or would be if they were there. */
  readonly files: readonly string[];
}

/** Nothing set at all. */
export const noSettings: Settings = { values: {}, references: [], referenceFile: null, files: [] };

// A profile holds what a dot gain would say: whoever tells of one leaves the other out.
const either: Readonly<Partial<Record<SettingName, SettingName>>> = {
  printer: 'dotGain',
  dotGain: 'printer',
};

/**
 * Tell whether something set gives way to what is said nearer to the work.
 *
 * @param name - Of it.
 * @param near - What is said there, by the same names.
 * @returns Whether another name there says what it would.
 */
export function isRuledOut(name: SettingName, near: Readonly<Record<string, unknown>>): boolean {
  const other = either[name];
  return other !== undefined && near[other] !== undefined;
}

/**
 * List the files that settings follow from.
 *
 * @param places - Of files of defaults, there or not.
 * @param references - The file of references, or null for none.
 * @returns They.
 */
export function filesOf(places: readonly string[], references: string | null): readonly string[] {
  return references === null ? places : [...places, references];
}
