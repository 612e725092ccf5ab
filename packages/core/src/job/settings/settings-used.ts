import { findScale } from '../../catalogue/find-scale.js';
import type { Settings, ToldSetting } from './settings.js';

/** Something set that counted. */
export interface UsedSetting {
  /** What it is. */
  readonly name: ToldSetting;
  /** As it is written, a path from where one works. */
  readonly value: string;
  /** The file that says so. */
  readonly file: string;
}

/**
 * Tell whether a scale is another, or none, without the region that is set.
 *
 * @param text - The scale as typed.
 * @param region - What is set, if anything is.
 * @returns Whether that region counts.
 */
export function isRegionMeant(text: string, region: string | undefined): boolean {
  if (region === undefined) return false;
  try {
    const meant = findScale(text, { usualRegion: region });
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

// As they are told.
const order: Readonly<Record<ToldSetting, number>> = {
  ...{ region: 0, scale: 1, dpi: 2 },
  ...{ paper: 3, margin: 4, printerX: 5, printerY: 6 },
  ...{ printer: 7, dotGain: 8, inkLimit: 9, saturation: 10, sharpen: 11 },
};

/**
 * Put settings into the form in which they are told.
 *
 * @param names - Which counted.
 * @param settings - All that is set.
 * @returns Those of them that are set, in the order in which they are always told.
 */
export function toUsed(names: readonly ToldSetting[], settings: Settings): readonly UsedSetting[] {
  const inOrder = [...names].sort((a, b) => order[a] - order[b]);
  return inOrder.flatMap((name) => {
    const setting = settings.values[name];
    return setting === undefined ? [] : [{ name, value: setting.text, file: setting.file }];
  });
}
