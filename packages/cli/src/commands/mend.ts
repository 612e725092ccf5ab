import { pictureLimits } from '../options/limits.js';
import { axis } from '../options/axis.js';
import { calm } from '../options/calm.js';
import { course } from '../options/course.js';
import { keep } from '../options/keep.js';
import { levelOnly } from '../options/level-only.js';
import { method } from '../options/method.js';
import { noRectify } from '../options/no-rectify.js';
import { noEven } from '../options/no-even.js';
import { output } from '../options/output.js';
import { straightenOf } from '../options/straighten-of.js';
import { calmInWords } from '../print/calm-in-words.js';
import { healedInWords } from '../print/healed-in-words.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { lightInWords } from '../print/light-in-words.js';
import { seamInWords } from '../print/seam-in-words.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod mend`. */
export const mend: Command = defineCommand({
  argumentHelp: 'a photo',
  description:
    'Make a picture repeat without a seam. A photo of courses taken at a slant is straightened. Where it shows courses it is cut to whole repeats of the bond, never half a brick; then its edges are joined where they differ least.',
  examples: [
    { line: 'mend wall.jpg --course uk-metric -o tile.png', does: 'A wall, cut to whole bricks:' },
    { line: 'mend gravel.jpg -o tile.png', does: 'A texture without courses:' },
    {
      line: 'mend boards.jpg --axis x --method cut -o tile.png',
      does: 'Side by side only, along the least visible line:',
    },
    { line: 'mend wall.jpg --calm -o tile.png', does: 'No brick that shows at each repeat:' },
  ],
  options: {
    output,
    axis,
    method,
    course,
    keep,
    calm,
    levelOnly,
    noRectify,
    noEven,
    ...pictureLimits,
  },
  run: (photo, values, { core, ...job }) =>
    core.mendPhoto(photo, { ...values, ...straightenOf(values), even: !values.noEven, ...job }),
  describe: (report) => [
    `${report.output}, ${report.width} x ${report.height} px, repeats`,
    ...inColumns([
      ['holds', whole(report.courses, report.bricks)],
      ['kept', `${inDigits(report.keptPercent, 3)} % of the photo`],
      ['mended by', report.method],
      ['because', report.why],
      ['whole bricks', healedInWords(report.healed)],
      ['calmed', calmInWords(report.calmed)],
      ['light', lightInWords(report.light)],
      ['side by side', seamInWords(report.x)],
      ['one above the other', seamInWords(report.y)],
    ]),
  ],
});

function whole(courses: number | null, bricks: number | null): string | null {
  if (courses === null) return null;
  return bricks === null
    ? `${courses} courses`
    : `${courses} courses of ${inDigits(bricks)} bricks`;
}
