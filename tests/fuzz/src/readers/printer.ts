import {
  NewerPrinter,
  parsePrinter,
} from '../../../../packages/core/dist/finish/print/parse-printer.js';
import { BadField } from '../../../../packages/core/dist/surface/fields.js';
import { allFinite, type Reader } from '../reader.js';

const levels = Array.from({ length: 8 }, (_, i) =>
  [4, 2, 1].map((bit) => ((i & bit) > 0 ? 255 : 40)),
).flat();

const whole = {
  schema: 'gaugerod.printer/1',
  strip: 1,
  darkest: 20,
  inkLimitPercent: 240,
  offBefore: 9,
  offAfter: 1,
  metPercent: 80,
  unsteady: 0.4,
  table: { size: 2, levels },
};

/** What was learnt of a printer. */
export const printer: Reader = {
  name: 'printer',
  tried: 2000,
  refusals: [BadField, NewerPrinter],
  words: [
    ...['null', 'true', '{', '}', '[', ']', ',', ':', '"', '255', '40', 'gaugerod.printer/2'],
    ...Object.keys(whole).map((key) => `"${key}":`),
    ...['"size":', '"levels":'],
  ],
  seeds: () => [Buffer.from(JSON.stringify(whole))],
  read: (bytes) => {
    allFinite(parsePrinter(bytes.toString()));
  },
};
