import { limitsOf, limitsSet, pageLimits, pictureLimits } from '../options/limits.js';
import type {
  LearntPrinter,
  MadeTestStrip,
  Outcome,
  SheetedPart,
  SheetedParts,
} from '@gaugerod/core';
import { bleed } from '../options/bleed.js';
import { copies } from '../options/copies.js';
import { gap } from '../options/gap.js';
import { layers } from '../options/layers.js';
import { margin } from '../options/margin.js';
import { mirror } from '../options/mirror.js';
import { noTurn } from '../options/no-turn.js';
import { overlap } from '../options/overlap.js';
import { paper } from '../options/paper.js';
import { printerX, printerY } from '../options/printer.js';
import { printColours, printingOf } from '../options/printing.js';
import { sheetDpi } from '../options/sheet-dpi.js';
import { sheetOutput } from '../options/sheet-output.js';
import { stripPhoto } from '../options/strip-photo.js';
import { testStrip } from '../options/test-strip.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { inSize } from '../print/in-size.js';
import { printingInWords } from '../print/printing-in-words.js';
import { UsageError } from '../print/usage-error.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

type Sheeted = SheetedParts | MadeTestStrip | LearntPrinter;

/** `gaugerod sheet`. */
export const sheet: Command = defineCommand({
  argumentHelp:
    'pictures that say how large they are on paper, such as fill writes, or drawings (.svg), such as dress writes',
  description:
    'Lay parts on pages at true size, as few as will do, with marks to cut by, names, and bars of 100 mm to check the print. What is larger than the paper is cut into pieces that overlap, with marks to match them by. Each picture is stored once, and its pixels are not touched unless colours are asked to be made to print as on the screen.',
  examples: [
    { line: 'sheet front.png side.png gable.png gable.png -o page.pdf', does: 'Parts on A4:' },
    {
      line: 'sheet front.png --layers 3 --bleed 2mm -o layers.pdf',
      does: 'A part for three layers of card, with 2 mm to cut away:',
    },
    {
      line: 'sheet front.png --printer-x 99.4 --printer-y 99.7 -o page.pdf',
      does: 'Again, for a printer whose bars of 100 mm came out short:',
    },
    {
      line: 'sheet --test-strip -o strip.pdf',
      does: 'A page of patches to print and scan:',
    },
    {
      line: 'sheet --strip-photo scan.png -o my.printer.json',
      does: 'What the scan says of the printer:',
    },
    {
      line: 'sheet front.png side.png --printer my.printer.json -o page.pdf',
      does: 'Parts in colours that this printer prints as the screen shows them:',
    },
  ],
  caution: [
    'Print at 100 %, not fitted to the page, and measure the bars before you cut.',
    'Cutting out: sharp knives, a cutting mat, and open windows for spray adhesive.',
  ].join('\n'),
  options: {
    output: sheetOutput,
    paper,
    margin,
    gap,
    bleed: {
      ...bleed,
      help: 'extra picture on every side of the parts, to be cut away (default: 0)',
    },
    copies,
    layers,
    mirror,
    overlap,
    noTurn,
    printerX,
    printerY,
    dpi: sheetDpi,
    ...printColours,
    testStrip,
    stripPhoto,
    ...pageLimits,
  },
  // Colours are sent to the printer once, and that is where parts are made.
  usual: ({ testStrip: isStrip, stripPhoto: photo }) => {
    if (photo !== undefined) return [];
    return isStrip ? ['paper'] : ['paper', 'margin', 'printerX', 'printerY'];
  },
  run: async (part, values, { core, ...job }, others): Promise<Outcome<Sheeted, string>> => {
    const parts = part === '' ? [] : [part, ...others];
    const set = limitsSet(job.settings);
    if (values.testStrip === true) {
      const taken = ['output', 'paper', 'dpi', 'testStrip', ...set];
      refuseBeside('--test-strip', parts, values, taken);
      return core.makeTestStrip({ ...values, ...job });
    }
    const { stripPhoto: photo, output } = values;
    if (photo !== undefined) {
      const taken = ['output', 'stripPhoto', ...Object.keys(pictureLimits), ...set];
      refuseBeside('--strip-photo', parts, values, taken);
      return core.readTestStrip(photo, { output, ...limitsOf(values), ...job });
    }
    if (parts.length === 0) {
      throw new UsageError('expected a part, --test-strip or --strip-photo, got none of them');
    }
    return core.sheetParts(parts, {
      ...values,
      ...printingOf(values),
      turn: values.noTurn !== true,
      mirror: values.mirror === true,
      ...job,
    });
  },
  describe: (report) => {
    if ('patches' in report) return describeStrip(report);
    if ('photo' in report) return describePrinter(report);
    return [
      `${filesOf(report)}, ${report.pages === 1 ? '1 page' : `${report.pages} pages`} of ${paperOf(report)}`,
      ...inColumns([
        ...report.parts.map((part) => [part.name, placeOf(part, report)] as const),
        ['print', printingInWords(report.printing)],
      ]),
    ];
  },
});

// What would be parsed and ignored.
function refuseBeside(
  flag: string,
  parts: readonly string[],
  values: object,
  taken: readonly string[],
): void {
  if (parts[0] !== undefined) {
    throw new UsageError(`expected no part beside ${flag}, got ${JSON.stringify(parts[0])}`);
  }
  const other = Object.keys(values).find((name) => !taken.includes(name));
  if (other === undefined) return;
  const typed = other.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  const known = flag === '--test-strip' ? '-o, --paper and --dpi' : '-o';
  throw new UsageError(`expected ${known} alone beside ${flag}, got --${typed}`);
}

function describeStrip(report: MadeTestStrip): readonly string[] {
  return [
    `${report.output}, test strip ${report.strip}: ${report.patches} patches on ${paperOf(report)}`,
  ];
}

function describePrinter(report: LearntPrinter): readonly string[] {
  const { turned, mirrored, patchPx, evenPercent, unsteady, offBefore, offAfter } = report;
  const lie = [
    ...(turned === 0 ? [] : [`turned by ${turned}°`]),
    ...(mirrored ? ['seen in a mirror'] : []),
  ];
  return [
    `${report.output}, a printer's profile from ${report.photo}`,
    ...inColumns([
      ['strip', [`${report.strip}`, ...lie, `patches of ${inDigits(patchPx, 3)} px`].join(', ')],
      ['light', `evened out: the least was ${inDigits(evenPercent, 3)} % of the most`],
      ...(report.contrast === 0 ? [] : [['camera', contrastOf(report)] as const]),
      ['steady', `greys in several places differ by ${inDigits(unsteady, 2)} (CIEDE2000)`],
      [
        'black',
        `lightness ${inDigits(report.darkest, 3)} of paper's 100; no darker past ${inDigits(report.inkLimitPercent, 3)} % ink`,
      ],
      [
        'colours',
        `of walls and steel off by ${inDigits(offBefore, 2)} (CIEDE2000), with the profile by ${inDigits(offAfter, 2)}; ${inDigits(report.metPercent, 3)} % of them within 2`,
      ],
    ]),
  ];
}

function contrastOf({ contrast, contrastUnsure }: LearntPrinter): string {
  return `had changed lightness by ${inDigits(contrast, 2)}, give or take ${inDigits(contrastUnsure, 1)}, which is taken out`;
}

function paperOf({
  paper: { name, widthMm, heightMm },
}: Pick<SheetedParts | MadeTestStrip, 'paper'>): string {
  return name ?? inSize({ width: widthMm, height: heightMm });
}

function placeOf(part: SheetedPart, { pages, parts }: SheetedParts): string {
  const { layer, piece, turned } = part;
  const layered = parts.some((other) => other.layer > 1);
  return [
    inSize({ width: part.widthMm, height: part.heightMm }),
    ...(pages > 1 ? [`page ${part.page}`] : []),
    `${inDigits(part.xMm)} mm from the left, ${inDigits(part.yMm)} mm from the top`,
    ...(layered ? [`layer ${layer}`] : []),
    ...(piece === null ? [] : [`piece ${piece.row}.${piece.column}`]),
    ...(turned ? ['on its side'] : []),
  ].join(', ');
}

function filesOf({ files }: SheetedParts): string {
  const [first = ''] = files;
  return files.length === 1 ? first : `${first} to ${files.at(-1) ?? first}`;
}
