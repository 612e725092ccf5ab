import { limitsSet, pictureLimits } from '../options/limits.js';
import type { Outcome, ScaledLength, ScaledPhoto } from '@gaugerod/core';
import { dpi } from '../options/dpi.js';
import { longFlag } from '../options/long-flag.js';
import { print } from '../options/print.js';
import { rectangleSize } from '../options/rectangle-size.js';
import { reference } from '../options/reference.js';
import { real } from '../options/real.js';
import { region } from '../options/region.js';
import { scale as modelScale } from '../options/scale.js';
import { straightenOf } from '../options/straighten-of.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { inLength } from '../print/in-length.js';
import { inSize } from '../print/in-size.js';
import { measurementLines } from '../print/measurement-lines.js';
import { scaleInWords } from '../print/scale-in-words.js';
import { UsageError } from '../print/usage-error.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod scale`. */
export const scale: Command = defineCommand({
  argumentHelp: 'a length (9.9m, 8ft6in, 75), or a measured photo',
  description:
    'Say what a length of the real thing comes to on paper, in millimetres and in printed dots, or the other way about. For a photo: how big it prints, and how fine.',
  examples: [
    { line: 'scale 9.9m --scale N-UK', does: 'A bridge of 9.9 m in British N:' },
    {
      line: 'scale 3.5mm --print --scale 1:148',
      does: 'What a girder 3.5 mm deep on paper stands for:',
    },
    {
      line: 'scale wall.jpg --course uk-metric --scale 1:76.2 --dpi 600',
      does: 'How big a photo of brickwork prints, and whether it is sharp enough:',
    },
  ],
  options: {
    scale: modelScale,
    region,
    dpi,
    real,
    print,
    ...reference,
    rectangleSize,
    ...pictureLimits,
  },
  usual: () => ['scale', 'dpi'],
  async run(
    subject,
    values,
    { core, ...job },
  ): Promise<Outcome<ScaledLength | ScaledPhoto, string>> {
    const { real: isReal, print: isPrint, scale, dpi } = values;
    if (isReal && isPrint) throw new UsageError('expected --real or --print, got both');
    if (!looksLikeLength(subject)) {
      if (isReal ?? isPrint) throw notForPhotos(isReal ? '--real' : '--print', subject);
      return core.scalePhoto(subject, { ...values, ...straightenOf(values), ...job });
    }
    const set = limitsSet(job.settings);
    const extra = Object.entries({ ...reference, rectangleSize, ...pictureLimits }).find(
      ([name]) => name in values && !set.includes(name),
    )?.[1];
    if (extra !== undefined) {
      throw new UsageError(`expected a photo for ${longFlag(extra)}, got the length ${subject}`);
    }
    const asked = isPrint
      ? { print: core.parsePrintLength(subject, 'LENGTH') }
      : { real: core.parseRealLength(subject, 'LENGTH') };
    const printer = dpi === undefined ? {} : { dpi };
    return { ok: true, value: core.scaleLength({ ...asked, ...printer, scale }), warnings: [] };
  },
  describe: (report) => ('photo' in report ? photoLines(report) : lengthLines(report)),
});

function notForPhotos(flag: string, subject: string): UsageError {
  return new UsageError(`expected a length such as 9.9m for ${flag}, got ${subject}`);
}

// A length begins with a digit; so may a photo's name, but that ends in an extension.
function looksLikeLength(text: string): boolean {
  return /^[-+.\d]/.test(text) && !/\.[a-z][a-z0-9]*$/i.test(text);
}

function lengthLines(report: ScaledLength): string[] {
  return [
    `${inLength(report.realMm)} of the real thing at ${scaleInWords(report.scale)}`,
    ...inColumns([
      ['on paper', inLength(report.printMm)],
      ['dots', `${inDigits(report.dots)} at ${inDigits(report.dpi)} dpi`],
    ]),
  ];
}

function photoLines(report: ScaledPhoto): string[] {
  const { photo, printSizeMm, dots, courseDots } = report;
  return [
    `${photo.path} at ${scaleInWords(report.scale)}`,
    ...inColumns([
      [
        'prints',
        `${inSize(printSizeMm)}, ${dots.width} x ${dots.height} dots at ${inDigits(report.dpi)} dpi`,
      ],
      ['holds', `${inDigits(report.photoDpi, 3)} pixels of the photo to an inch of paper`],
      ['a course prints', courseDots === null ? null : `${inDigits(courseDots)} dots high`],
      ...measurementLines(report.measurement),
    ]),
  ];
}
