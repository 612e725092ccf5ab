import { pictureLimits } from '../options/limits.js';
import type { ExtendedPhoto, ExtendedPhotos } from '@gaugerod/core';
import { course } from '../options/course.js';
import { courseAxis } from '../options/course-axis.js';
import { dpi } from '../options/dpi.js';
import { levelOnly } from '../options/level-only.js';
import { modelScale } from '../options/model-scale.js';
import { noEven } from '../options/no-even.js';
import { noRectify } from '../options/no-rectify.js';
import { output } from '../options/output.js';
import { realSize } from '../options/real-size.js';
import { region } from '../options/region.js';
import { seed } from '../options/seed.js';
import { size } from '../options/size.js';
import { straightenOf } from '../options/straighten-of.js';
import { times } from '../options/times.js';
import { type Column, inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { inSize } from '../print/in-size.js';
import { lightInWords } from '../print/light-in-words.js';
import { scaleInWords } from '../print/scale-in-words.js';
import { seamInWords } from '../print/seam-in-words.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod extend`. */
export const extend: Command = defineCommand({
  argumentHelp: 'a photo, or several of the same wall',
  description:
    'Grow a small picture, or join several of the same wall, into a larger one in which no repeat shows and which itself repeats without a seam. Where joints show it is laid anew of whole bricks; else of runs of courses, or of patches where there are no courses. It comes out a little larger than asked, so that it holds whole repeats of the bond.',
  examples: [
    {
      line: 'extend wall.jpg --course uk-metric --real-size 4.5x3m -o large.png',
      does: 'A wall of 4.5 x 3 m, as fine as the photo:',
    },
    {
      line: 'extend left.jpg right.jpg --course uk-metric --scale N-UK --size 60x40mm -o large.png',
      does: 'Two photos of one wall, at print resolution:',
    },
    { line: 'extend gravel.jpg --times 4x4 -o large.png', does: 'A texture of unknown size:' },
  ],
  caution: 'Check that the terms of every photo allow printing, and selling, the model.',
  options: {
    output,
    size,
    realSize,
    times,
    scale: modelScale,
    region,
    dpi,
    seed,
    course,
    axis: courseAxis,
    levelOnly,
    noRectify,
    noEven,
    ...pictureLimits,
  },
  usual: ({ scale }) => (scale === undefined ? [] : ['dpi']),
  run: (photo, values, { core, ...job }, others) =>
    core.extendPhotos([photo, ...others], {
      ...values,
      ...straightenOf(values),
      even: !values.noEven,
      ...job,
    }),
  describe: (report) => [
    `${report.output}, ${report.width} x ${report.height} px${fineness(report)}, repeats`,
    ...inColumns([
      ['scale', report.scale && scaleInWords(report.scale)],
      ['shows', report.realSizeMm && `${inSize(report.realSizeMm)} of the real thing`],
      ['rounded', rounded(report)],
      ['holds', report.courses === null ? null : `${report.courses} courses`],
      ['made of', madeOf(report)],
      ['seed', `${report.seed}`],
      ...report.photos.map((photo) => photoLine(photo, report.photos.length)),
      ['side by side', seamInWords(report.x)],
      ['one above the other', seamInWords(report.y)],
    ]),
  ],
});

function fineness({ dpi: dots, paperSizeMm }: ExtendedPhotos): string {
  if (dots === null || paperSizeMm === null) return '';
  return ` at ${inDigits(dots)} dpi: ${inSize(paperSizeMm)} of paper`;
}

function rounded({ roundedPercent: { x, y } }: ExtendedPhotos): string | null {
  const part = (percent: number, more: string, less: string): string =>
    `${inDigits(Math.abs(percent), 3)} % ${percent < 0 ? less : more}`;
  // Less than a pixel in a thousand is nothing to speak of.
  if (Math.max(Math.abs(x), Math.abs(y)) < 0.1) return null;
  return `${part(x, 'wider', 'narrower')} and ${part(y, 'higher', 'lower')} than asked, so that it holds whole repeats`;
}

const ways = {
  bricks: 'whole bricks',
  courses: 'runs of courses',
  patches: 'patches',
} as const;

function madeOf({ method, bricks }: ExtendedPhotos): string {
  return bricks === null ? ways[method] : `${bricks} whole bricks`;
}

function photoLine({ path, bond, bondFrom, light }: ExtendedPhoto, count: number): Column {
  const laid = bondFrom === null ? bond : `taken to be ${bond}, as ${bondFrom} is`;
  const told = [laid, lightInWords(light)].filter((part) => part !== null);
  return [count === 1 ? 'photo' : path, told.length === 0 ? 'as it is' : told.join(', ')];
}
