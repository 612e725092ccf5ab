import { findScale } from '../../catalogue/find-scale.js';
import type { JobData } from '../build/read-job.js';
import type { SettingName, Settings } from './settings.js';

/** Something set that counted. */
export interface UsedSetting {
  /** What it is. */
  readonly name: SettingName;
  /** As it is written, a path from where one works. */
  readonly value: string;
  /** The file that says so. */
  readonly file: string;
}

const ofSheets = ['paper', 'margin', 'printerX', 'printerY'] as const;
const ofPrinting = ['printer', 'dotGain', 'inkLimit', 'saturation', 'sharpen'] as const;

/**
 * List what of the settings counts for a job.
 *
 * @param data - Of the job.
 * @param settings - What is set.
 * @returns Those that stand in place of something that the job does not say at its top.
 */
export function settingsUsed(data: JobData, settings: Settings): readonly UsedSetting[] {
  const isPrinted =
    data.printing === undefined &&
    Object.values(data.parts).some((part) => part['printing'] === undefined);
  const names: readonly SettingName[] = [
    ...(isRegionUsed(data, settings) ? (['region'] as const) : []),
    'dpi',
    ...(Object.keys(data.sheets ?? {}).length > 0 ? ofSheets : []),
    ...(isPrinted ? ofPrinting : []),
  ];
  return toUsed(
    names.filter((name) => data[name] === undefined),
    settings,
  );
}

function isRegionUsed({ scale, region }: JobData, settings: Settings): boolean {
  const scales = [scale].flat().map(String);
  return region === undefined && scales.some((text) => isRegionMeant(text, settings));
}

/**
 * Tell whether a scale is another, or none, without the region that is set.
 *
 * @param text - The scale as typed.
 * @param settings - What is set.
 * @returns Whether that region counts.
 */
export function isRegionMeant(text: string, settings: Settings): boolean {
  const { region } = settings.values;
  if (region === undefined) return false;
  try {
    const meant = findScale(text, { usualRegion: region.text });
    return ratioOf(text) !== meant.ratio;
  } catch {
    return false;
  }
}

function ratioOf(text: string): number | null {
  try {
    return findScale(text).ratio;
  } catch {
    return null;
  }
}

/**
 * Put settings into the form in which they are told.
 *
 * @param names - Which counted.
 * @param settings - All that is set.
 * @returns Those of them that are set.
 */
export function toUsed(names: readonly SettingName[], settings: Settings): readonly UsedSetting[] {
  return names.flatMap((name) => {
    const setting = settings.values[name];
    return setting === undefined ? [] : [{ name, value: setting.text, file: setting.file }];
  });
}
