import { checkLimits } from '../../limits/check-limits.js';
import type { LimitOptions } from '../../limits/limits.js';
import type { OwnReference } from '../../catalogue/own-reference.js';
import { type FieldsOf, readFields } from '../build/fields/field.js';
import { sheetFields } from '../build/fields/sheet-fields.js';
import { fillFields } from '../build/fields/part-fields.js';
import type { TopValues } from '../build/job-schema.js';
import type { PrintingOptions } from '../print/printing-options.js';
import { configPrinting } from './config-form.js';
import { limitFields } from './limit-fields.js';
import { noSettings, type Settings } from './settings.js';

/** What may be usual of that which stands at the top of a job. */
export type UsualTop = Pick<TopValues, 'dpi' | 'paper' | 'margin' | 'printerX' | 'printerY'>;

/** What holds for a job that does not say it. */
export interface UsualValues {
  /** Where the job says nothing at its top. */
  readonly top: Partial<UsualTop>;
  /** Where short names of scales are meant, or undefined for anywhere. */
  readonly region: string | undefined;
  /** What is done to the colours of its parts, or undefined for nothing. */
  readonly printing: PrintingOptions | undefined;
  /** References beside the catalogue's. */
  readonly references: readonly OwnReference[];
}

const { paper, margin, printerX, printerY } = sheetFields;
const usualTop: FieldsOf<UsualTop> = { dpi: fillFields.dpi, paper, margin, printerX, printerY };

const read = (key: string, take: (name: string) => unknown): unknown => take(key);

/**
 * Put limits that are set where a caller gives none.
 *
 * @param options - What is given, and what is set.
 * @returns Limits alone.
 * @throws RangeError where a text of those set cannot be meant.
 */
export function usualLimits(
  options: LimitOptions & { readonly settings?: Settings },
): LimitOptions {
  const { settings = noSettings, ...given } = options;
  const texts = Object.entries(settings.values).map(([name, { text }]) => [name, text] as const);
  return { ...readFields(limitFields, Object.fromEntries(texts), read), ...checkLimits(given) };
}

/**
 * Take from what is set what jobs need.
 *
 * @param settings - As read.
 * @returns The same as values. A scale is not among them: every job has its own.
 * @throws RangeError where a text of it cannot be meant.
 */
export function takeSettings(settings: Settings): UsualValues {
  const { values, references } = settings;
  const texts = Object.fromEntries(
    Object.entries(values).map(([name, { text }]) => [name, text] as const),
  );
  const printing = readFields(configPrinting, texts, read);
  return {
    top: readFields(usualTop, texts, read),
    region: values.region?.text,
    printing: Object.keys(printing).length === 0 ? undefined : printing,
    references,
  };
}
