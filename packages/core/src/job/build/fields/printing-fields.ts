import { outOfRange } from '../../../errors/out-of-range.js';
import type { PrintingOptions } from '../../printing-options.js';
import { type FieldsOf, text } from './field.js';

function parsePercent(typed: string, name: string): number {
  const value = /^\d{1,3}(\.\d{1,4})? ?%$/.test(typed) ? Number.parseFloat(typed) : NaN;
  if (value >= 0) return value / 100;
  throw outOfRange('per cent such as 18%', name, typed);
}

function parseFactor(typed: string, name: string): number {
  const value = /^\d{1,2}(\.\d{1,4})?$/.test(typed) ? Number(typed) : NaN;
  if (value <= 2) return value;
  throw outOfRange('a number from 0 to 2', name, typed);
}

/** What is done to colours for a printer, its profile aside, which is a file. */
export const printingFields: FieldsOf<Omit<PrintingOptions, 'printer'>> = {
  dotGain: text(
    'without a profile: how much larger a dot of half the paper prints: 18%',
    parsePercent,
  ),
  inkLimit: text('the most ink, all three inks together being 300%', parsePercent),
  saturation: text('more or less colourful than the screen shows, 0 to 2', parseFactor),
  sharpen: text('how much detail finer than 0.12 mm of paper is sharpened, 0 to 2', parseFactor),
};
