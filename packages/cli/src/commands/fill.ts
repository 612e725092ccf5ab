import { outlineLimits, refuseLimits } from '../options/limits.js';
import type { FilledPhoto, NextWall, OutlineReport } from '@gaugerod/core';
import { bleed } from '../options/bleed.js';
import { corner } from '../options/corner.js';
import { datum } from '../options/datum.js';
import { dpi } from '../options/dpi.js';
import { method } from '../options/method.js';
import { noEven } from '../options/no-even.js';
import { outline } from '../options/outline.js';
import { fillOutput } from '../options/fill-output.js';
import { quality } from '../options/quality.js';
import { reference } from '../options/reference.js';
import { printing, printingOf, usualPrinting } from '../options/printing.js';
import { realSize } from '../options/real-size.js';
import { region } from '../options/region.js';
import { scale } from '../options/scale.js';
import { size } from '../options/size.js';
import { svg } from '../options/svg.js';
import { wallRelief, wallReliefOf } from '../options/wall-relief.js';
import { partWeather, weatherOf } from '../options/weather.js';
import { straightenOf } from '../options/straighten-of.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { inSize } from '../print/in-size.js';
import { lightInWords } from '../print/light-in-words.js';
import { measurementLines } from '../print/measurement-lines.js';
import { printingInWords } from '../print/printing-in-words.js';
import { scaleInWords } from '../print/scale-in-words.js';
import { weatherInWords } from '../print/weather-in-words.js';
import { UsageError } from '../print/usage-error.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod fill`. */
export const fill: Command = defineCommand({
  argumentHelp: 'a photo of a wall, roof or floor',
  description:
    'The whole job: measure the photo (or use what measure --save kept), straighten it, bring it to the scale of the model, make it repeat without a seam, and write a picture of exactly the size asked for.',
  examples: [
    {
      line: 'fill wall.jpg --course uk-metric --scale N-UK --size 120x80mm -o front.png',
      does: 'A front 120 x 80 mm of brick in British N:',
    },
    {
      line: 'fill wall.jpg --scale 1:76.2 --real-size 9.9x4.2m --bleed 2mm -o side.png',
      does: 'A real side wall of 9.9 x 4.2 m, from a measured photo, with 2 mm to cut away:',
    },
    {
      line: 'fill wall.jpg --scale N-UK --size 60x80mm --datum 120,0 -o next.png',
      does: 'The piece to the right of the first, its courses running on:',
    },
    {
      line: 'fill wall.jpg --scale N-UK --size 120x80mm --weather settled --ledge "20,24 38,24" -o old.png',
      does: 'The first, decades later, with a sill that rain runs from:',
    },
    {
      line: 'fill wall.jpg --scale N-UK --outline house.svg#gable --corner right -o gable.png',
      does: 'A gable with windows as drawn, and where the wall round its corner begins:',
    },
  ],
  caution: [
    'Cutting out: sharp knives, a cutting mat, and open windows for spray adhesive.',
    'Check that the terms of the photo allow printing, and selling, the model.',
  ].join('\n'),
  options: {
    output: fillOutput,
    scale,
    region,
    size,
    realSize,
    outline,
    dpi,
    bleed,
    datum,
    corner,
    ...reference,
    noEven,
    method,
    quality,
    svg,
    ...partWeather,
    ...wallRelief,
    ...printing,
    ...outlineLimits,
  },
  usual: () => ['scale', 'dpi', ...usualPrinting],
  run: (photo, values, { core, ...job }) => {
    const { corners, course, lengths, section, brick, noEven } = values;
    if (corners !== undefined && (course ?? lengths ?? section ?? brick) === undefined) {
      throw new UsageError('expected --course or a --span beside --corners, got none', {
        hint: 'a rectangle of known size is measured first: gaugerod measure PHOTO --corners "…" --real-size WxH --save',
      });
    }
    if (values.outline === undefined) {
      const limits = ['mostElements', 'mostDepth'] as const;
      refuseLimits(values, job.settings, { what: 'an --outline', limits });
    }
    const weather = weatherOf(values);
    const relief = wallReliefOf(values);
    return core.fillPhoto(photo, {
      ...values,
      ...straightenOf(values),
      ...printingOf(values),
      ...(Object.keys(weather).length > 0 && { weather }),
      ...(Object.keys(relief).length > 0 && { relief }),
      even: !noEven,
      ...job,
    });
  },
  describe: (report) => [
    `${report.output}, ${report.widthPx} x ${report.heightPx} px at ${inDigits(report.dpi)} dpi: ${inSize({ width: report.widthMm, height: report.heightMm })} of paper`,
    ...inColumns([
      ['scale', scaleInWords(report.scale)],
      ...(report.outline === null ? [] : [['outline', outlineInWords(report.outline)] as const]),
      [
        'repeats',
        `every ${report.tile.widthPx} x ${report.tile.heightPx} px, ${inSize({ width: report.tile.widthMm, height: report.tile.heightMm })} of paper`,
      ],
      [
        'scale error',
        `${inDigits(Math.abs(report.scaleErrorPercent), 2)} % by rounding to whole dots`,
      ],
      ['weather', weatherInWords(report.weather)],
      ['relief', reliefInWords(report.relief)],
      ['print', printingInWords(report.printing)],
      ['light', lightInWords(report.light)],
      ...measurementLines(report.measurement),
      ...(report.nextWall === null ? [] : [nextWallLine(report.nextWall)]),
    ]),
  ],
});

function reliefInWords(relief: FilledPhoto['relief']): string | null {
  if (relief === null) return null;
  const { stringCourses: courses, isOpeningsLit, light, strength } = relief;
  const what = [
    ...(courses.length === 0
      ? []
      : [`${courses.length} string course${courses.length === 1 ? '' : 's'}`]),
    ...(isOpeningsLit ? ['edges of openings'] : []),
  ];
  return `${what.join(', ')}; light from ${light.replace('-', ' ')}, strength ${inDigits(strength)}`;
}

function outlineInWords({ path, id, ...mm }: OutlineReport): string {
  const name = id === null ? path : `${path}#${id}`;
  const size = inSize({ width: mm.widthMm, height: mm.heightMm });
  return `${name}, ${size}, ${inDigits(mm.xMm)} mm from the left and ${inDigits(mm.yMm)} mm from the top of its page`;
}

function nextWallLine({ corner: side, datumXMm, datumYMm }: NextWall): readonly [string, string] {
  return ['next wall', `round the ${side} corner: --datum ${datumXMm},${datumYMm}`];
}
