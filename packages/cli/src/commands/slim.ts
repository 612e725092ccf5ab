import { drawingLimits } from '../options/limits.js';
import type { SlimmedDrawing } from '@gaugerod/core';
import { dpi } from '../options/dpi.js';
import { drawingOutput } from '../options/drawing-output.js';
import { embed } from '../options/embed.js';
import { find } from '../options/find.js';
import { keepClipped } from '../options/keep-clipped.js';
import { link } from '../options/link.js';
import { report } from '../options/report.js';
import { inBytes } from '../print/in-bytes.js';
import { inColumns } from '../print/in-columns.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod slim`. */
export const slim: Command = defineCommand({
  argumentHelp: 'an SVG drawing',
  description:
    'Say why a drawing’s file is as large as it is, and write a smaller one that prints the same: each picture stored once, cut to what shows of it, and no finer than the print. A PNG stays one without loss; a JPEG stays one, at a quality at which nothing is seen. All else stays as it is, byte for byte. Links that are broken are mended where the picture is found; nothing is fetched.',
  examples: [
    { line: 'slim front.svg --report', does: 'Why is it so large?' },
    { line: 'slim front.svg -o small.svg', does: 'A smaller one:' },
    {
      line: 'slim front.svg --find photos --link pictures -o small.svg',
      does: 'Pictures beside it, missing ones looked for:',
    },
  ],
  options: { output: drawingOutput, report, dpi, link, embed, find, keepClipped, ...drawingLimits },
  usual: () => ['dpi'],
  run: (drawing, values, { core, ...job }) => core.slimDrawing(drawing, { ...values, ...job }),
  describe: (told) => [
    told.verdict,
    outcome(told),
    ...inColumns(told.images.map(({ id, what }) => [id, what])),
  ],
});

function outcome({ output, bytesBefore, bytesAfter }: SlimmedDrawing): string {
  const name = output ?? 'a smaller one';
  const would = output === null ? ' would be' : ',';
  return `${name}${would} ${inBytes(bytesAfter, bytesBefore)}`;
}
