import type { OwnReference } from '../../catalogue/own-reference.js';

/** What may be set once for all commands. */
export type SettingName =
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
  /** All files that this was read from. */
  readonly files: readonly string[];
}

/** Nothing set at all. */
export const noSettings: Settings = { values: {}, references: [], referenceFile: null, files: [] };
