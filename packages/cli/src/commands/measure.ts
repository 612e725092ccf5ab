import type { MeasuredPhoto, Outcome, OfferedFormats } from '@gaugerod/core';
import { pictureLimits } from '../options/limits.js';
import { rectangleSize } from '../options/rectangle-size.js';
import { reference } from '../options/reference.js';
import { credit } from '../options/credit.js';
import { licence } from '../options/licence.js';
import { overlay } from '../options/overlay.js';
import { page } from '../options/page.js';
import { save } from '../options/save.js';
import { straightenOf } from '../options/straighten-of.js';
import { wallRegion } from '../options/wall-region.js';
import { formatLines } from '../print/format-lines.js';
import { inColumns } from '../print/in-columns.js';
import { measurementLines } from '../print/measurement-lines.js';
import { spanLines } from '../print/span-lines.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';
import { describeSeveral, measureSeveral, type SeveralPhotos } from './measure-several.js';

/** `gaugerod measure`. */
export const measure: Command = defineCommand({
  argumentHelp: 'photos of walls, roofs or floors, or folders of them',
  description:
    'Find out how many millimetres of the real wall one pixel of the photo shows. Say what the courses are and they are found and measured; or count them yourself; or give two points whose distance you know, or the corners of a rectangle. A photo taken at a slant is straightened. Told nothing, it says what the courses could be.',
  examples: [
    {
      line: 'measure wall.jpg --course uk-metric',
      does: 'The courses are UK metric brick, 75 mm each:',
    },
    {
      line: 'measure wall.jpg --course uk-metric --overlay joints.png',
      does: 'The same, and see for yourself which joints were found:',
    },
    {
      line: 'measure wall.jpg',
      does: 'Which bricks they could be, each with its probability:',
    },
    {
      line: 'measure wall.jpg --course 75mm --courses 8 --span "410,120 410,620"',
      does: 'Eight courses of 75 mm lie between two points:',
    },
    {
      line: 'measure gate.jpg --span "310,402 1270,402" --length 3.6m --save',
      does: 'A gate is 3.6 m wide; keep the measurement beside the photo:',
    },
    {
      line: 'measure gate.jpg --page gate.html',
      does: 'Point at the photo instead of typing places:',
    },
    {
      line: 'measure photos --course uk-metric --json',
      does: 'Every picture in a folder, one JSON object a line:',
    },
    {
      line: 'measure yard.jpg --corners "212,96 905,160 880,702 190,820" --real-size 3.6x3m',
      does: 'A door of 3.6 x 3 m, seen at a slant, straightens the photo:',
    },
  ],
  caution: 'A measured photo is not a survey: not for structural use.',
  options: {
    ...reference,
    rectangleSize,
    overlay,
    page,
    region: wallRegion,
    save,
    licence,
    credit,
    ...pictureLimits,
  },
  run: async (photo, values, surroundings, others): Promise<Outcome<Measured, string>> => {
    const { core, ...job } = surroundings;
    const photos = await core.listPhotos([photo, ...others]);
    const wish = { ...values, ...straightenOf(values) };
    if (photos.length === 1 && photos[0] === photo) {
      return core.measurePhoto(photo, { ...wish, ...job });
    }
    return measureSeveral(photos, wish, { ...surroundings, describe });
  },
  describe: (report) => ('failed' in report ? describeSeveral(report) : describe(report)),
  failedOf: (report) => ('failed' in report ? report.failed : null),
});

type Measured = MeasuredPhoto | OfferedFormats | SeveralPhotos;

function describe(report: MeasuredPhoto | OfferedFormats): readonly string[] {
  if (report.method === 'formats') return formatLines(report);
  return [
    `${report.photo.path}, ${report.photo.width} x ${report.photo.height} px`,
    ...inColumns([
      ...measurementLines(report),
      ...spanLines(report.spans),
      ['kept in', report.sidecar ?? null],
      ['shown in', report.overlay ?? null],
      ['point at it in', report.page ?? null],
    ]),
  ];
}
