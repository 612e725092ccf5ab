import { axis } from '../options/axis.js';
import { levelOnly } from '../options/level-only.js';
import { noRectify } from '../options/no-rectify.js';
import { picture } from '../options/picture.js';
import { straightenOf } from '../options/straighten-of.js';
import { inColumns } from '../print/in-columns.js';
import { seamInWords } from '../print/seam-in-words.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod inspect`. */
export const inspect: Command = defineCommand({
  argumentHelp: 'a picture that is meant to repeat',
  description:
    'Tell whether a picture repeats without a seam: side by side (x), and one above the other (y). The seam score is the step across the seam over the largest steps inside the picture: up to 1, nobody sees it. A photo whose surface file says that it lies askew is straightened first.',
  examples: [
    { line: 'inspect brick.png', does: 'Does it repeat, and which way?' },
    {
      line: 'inspect brick.png --axis x --picture seams.png',
      does: 'Look for yourself: seams in the middle and marked, beside a 3x3 tiling:',
    },
  ],
  options: { axis, picture, levelOnly, noRectify },
  run: (photo, values, { core, ...job }) =>
    core.inspectPhoto(photo, { ...values, ...straightenOf(values), ...job }),
  describe: (report) => [
    report.verdict,
    ...inColumns([
      ['side by side', seamInWords(report.x)],
      ['one above the other', seamInWords(report.y)],
    ]),
  ],
});
