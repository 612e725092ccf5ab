import { parseFactor } from '../../../units/parse-number.js';
import { parseDotGain, parseInkLimit } from '../../print/parse-printing.js';
import type { PrintingOptions } from '../../print/printing-options.js';
import { type FieldsOf, text } from './field.js';

/** What is done to colours for a printer, its profile aside, which is a file. */
export const printingFields: FieldsOf<Omit<PrintingOptions, 'printer'>> = {
  dotGain: text(
    'without a profile: how much larger a dot of half the paper prints: 18%',
    parseDotGain,
  ),
  inkLimit: text('the most ink, all three inks together being 300%', parseInkLimit),
  saturation: text('more or less colourful than the screen shows, 0 to 2', parseFactor),
  sharpen: text('how much detail finer than 0.12 mm of paper is sharpened, 0 to 2', parseFactor),
};
