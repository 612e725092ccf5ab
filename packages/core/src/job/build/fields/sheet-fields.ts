import { findPaper } from '../../../catalogue/find-paper.js';
import { parseDpi } from '../../../units/parse-dpi.js';
import { parseBar, parseWhole } from '../../../units/parse-number.js';
import { parseOffset } from '../../../units/parse-place.js';
import type { JobOptions } from '../../job-options.js';
import type { SheetPartsOptions } from '../../sheet/sheet-parts.js';
import { type FieldsOf, text, yesOrNo } from './field.js';

const hundred = { most: 100 };

/** What is said of pages. */
export type SheetValues = Omit<
  SheetPartsOptions,
  'output' | 'bleed' | 'printing' | keyof JobOptions
>;

/** Pages that parts are laid on. */
export const sheetFields: FieldsOf<SheetValues> = {
  paper: text('A4, A3 landscape, Letter, or its size; A4 unless told', findPaper),
  margin: text('what the printer leaves white along every edge: 5mm', parseOffset),
  gap: text('from one part to the next: 7mm', parseOffset),
  overlap: text('how far pieces of a part larger than the paper overlap: 8mm', parseOffset),
  copies: text('how often each part is printed', (typed, name) => parseWhole(typed, name, hundred)),
  layers: text('layers of card that each part is laminated of', (typed, name) =>
    parseWhole(typed, name, hundred),
  ),
  mirror: yesOrNo('layers without print are mirrored'),
  turn: yesOrNo('parts may be turned on their sides; true unless told'),
  printerX: text('what the 100 mm bar along the foot measures: 99.4', parseBar),
  printerY: text('what the 100 mm bar up the side measures', parseBar),
  dpi: text('dots per inch of pages written as pictures', parseDpi),
};
