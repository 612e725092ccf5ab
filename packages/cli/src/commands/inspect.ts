import { pictureLimits } from '../options/limits.js';
import type { InspectedSeamReport } from '@gaugerod/core';
import { axis } from '../options/axis.js';
import { course } from '../options/course.js';
import { dpi } from '../options/dpi.js';
import { levelOnly } from '../options/level-only.js';
import { noRectify } from '../options/no-rectify.js';
import { picture } from '../options/picture.js';
import { region } from '../options/region.js';
import { scale as modelScale } from '../options/scale.js';
import { straightenOf } from '../options/straighten-of.js';
import { inColumns } from '../print/in-columns.js';
import { inSize } from '../print/in-size.js';
import { seamInWords } from '../print/seam-in-words.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

// Lengths are told in pixels without it.
const { flag, help, hint, parse } = modelScale;
const scale = { flag, help, parse, ...(hint !== undefined && { hint }) };

/** `gaugerod inspect`. */
export const inspect: Command = defineCommand({
  argumentHelp: 'a picture that is meant to repeat',
  description:
    'Tell whether a picture repeats without a seam: side by side (x), and one above the other (y); why not; and which odd brick or stain will be seen at each repeat. The seam score is what is found at the seam over the most that is usual inside the picture: up to 1, nobody sees it. A photo whose surface file says that it lies askew is straightened first.',
  examples: [
    { line: 'inspect brick.png', does: 'Does it repeat, and which way?' },
    {
      line: 'inspect brick.png --course uk-metric --scale N-UK',
      does: 'How often will its odd bricks be seen on paper?',
    },
    {
      line: 'inspect brick.png --axis x --picture seams.png',
      does: 'Look for yourself: seams in the middle and marked, beside a 3x3 tiling:',
    },
  ],
  options: { axis, course, scale, region, dpi, picture, levelOnly, noRectify, ...pictureLimits },
  usual: ({ scale }) => (scale === undefined ? [] : ['dpi']),
  run: (photo, values, { core, ...job }) =>
    core.inspectPhoto(photo, { ...values, ...straightenOf(values), ...job }),
  describe: (report) => [
    report.verdict,
    ...inColumns([
      ['side by side', inWords(report.x)],
      ['one above the other', inWords(report.y)],
      ['prints', report.printSizeMm && inSize(report.printSizeMm)],
    ]),
    ...report.odd.map(({ message }) => `  ${message}`),
  ],
});

function inWords(seam: InspectedSeamReport): string {
  return seam.why === null ? seamInWords(seam) : `${seamInWords(seam)}: ${seam.why}`;
}
