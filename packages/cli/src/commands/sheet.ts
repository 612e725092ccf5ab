import type { SheetedPart, SheetedParts } from '@gaugerod/core';
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
import { sheetDpi } from '../options/sheet-dpi.js';
import { sheetOutput } from '../options/sheet-output.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { inSize } from '../print/in-size.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod sheet`. */
export const sheet: Command = defineCommand({
  argumentHelp:
    'pictures that say how large they are on paper, such as fill writes, or drawings (.svg), such as dress writes',
  description:
    'Lay parts on pages at true size, as few as will do, with marks to cut by, names, and bars of 100 mm to check the print. What is larger than the paper is cut into pieces that overlap, with marks to match them by. Each picture is stored once and its pixels are not touched.',
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
  },
  run: (part, values, { core, ...job }, others) =>
    core.sheetParts([part, ...others], {
      ...values,
      turn: values.noTurn !== true,
      mirror: values.mirror === true,
      ...job,
    }),
  describe: (report) => [
    `${filesOf(report)}, ${report.pages === 1 ? '1 page' : `${report.pages} pages`} of ${paperOf(report)}`,
    ...inColumns(report.parts.map((part) => [part.name, placeOf(part, report)])),
  ],
});

function paperOf({ paper: { name, widthMm, heightMm } }: SheetedParts): string {
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
