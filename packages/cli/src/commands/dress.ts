import { drawingLimits } from '../options/limits.js';
import type { DressedDrawing, DressedOutline, DressedSurface } from '@gaugerod/core';
import { course } from '../options/course.js';
import { datum } from '../options/datum.js';
import { dpi } from '../options/dpi.js';
import { drawingOutput } from '../options/drawing-output.js';
import { dressRelief } from '../options/dress-relief.js';
import { embed } from '../options/embed.js';
import { link } from '../options/link.js';
import { noEven } from '../options/no-even.js';
import { paint } from '../options/paint.js';
import { printing, printingOf, usualPrinting } from '../options/printing.js';
import { region } from '../options/region.js';
import { scale } from '../options/scale.js';
import { dressWeather, dressWeatherOf } from '../options/weather.js';
import { inBytes } from '../print/in-bytes.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { printingInWords } from '../print/printing-in-words.js';
import { weatherInWords } from '../print/weather-in-words.js';
import { scaleInWords } from '../print/scale-in-words.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod dress`. */
export const dress: Command = defineCommand({
  argumentHelp: 'an SVG drawing that states its size in mm, cm, in or pt',
  description:
    'Cover the outlines of a drawing with photos, all at one scale whatever transforms they stand in, courses running on from outline to outline, holes left open. Each picture is stored once, clipped to its outlines and laid right under their lines. Courses turn with an outline that is turned. All else stays as it is, byte for byte; what was dressed before is dressed anew.',
  examples: [
    {
      line: 'dress front.svg --paint "#b5432e=wall.jpg" --scale N-UK -o dressed.svg',
      does: 'Whatever is filled with one red becomes brick, by a photo that was measured:',
    },
    {
      line: 'dress front.svg --paint "#gable=wall.jpg" --paint ".roof=slates.jpg" --scale 1:76.2 -o dressed.svg',
      does: 'A group by its id, roofs by their class:',
    },
    {
      line: 'dress front.svg --paint "#b5432e=wall.jpg" --course uk-metric --scale N-UK --link pictures -o dressed.svg',
      does: 'A photo never measured, its picture beside the drawing:',
    },
    {
      line: 'dress bridge.svg --paint ".iron=rust.jpg" --relief ".girder=plate-girder,flange=40mm,leg=100mm,rivets=4in" --relief ".panel=panel,sunk" --scale N-UK -o dressed.svg',
      does: 'A bridge whose strips become girders, and whose panels lie deeper:',
    },
    {
      line: 'dress front.svg --paint "#b5432e=wall.jpg" --scale N-UK --weather settled --ledges .sill --fixings "#hooks" -o old.svg',
      does: 'Walls that have aged, with rain from sills and rust from hooks as drawn:',
    },
  ],
  caution: [
    'Sections are drawn for models, and are not for structural use.',
    'What may be a colour or an id, spelled out: fill:#aabbcc, id:aabbcc.',
    'Check that the terms of the photos allow printing, and selling, the model.',
  ].join('\n'),
  options: {
    output: { ...drawingOutput, required: true },
    paint,
    reliefs: dressRelief,
    scale,
    region,
    course: { ...course, help: 'what the courses are of photos that were never measured' },
    dpi,
    datum: {
      ...datum,
      help: 'where on the drawing a course begins, in mm of paper from its top left corner (default: 0,0)',
    },
    noEven,
    link: { ...link, help: 'write pictures into this folder, and link to them' },
    embed: { ...embed, help: 'put pictures into the drawing, as is done without --link' },
    ...dressWeather,
    ...printing,
    printer: {
      ...printing.printer,
      help: `${printing.printer.help}; here of photos alone: flat colours of the drawing stay as they are`,
    },
    ...drawingLimits,
  },
  usual: () => ['scale', 'dpi', ...usualPrinting],
  run: (drawing, { reliefs = [], ...values }, { core, ...job }) => {
    const weather = dressWeatherOf(values);
    const aged = Object.keys(weather).length > 0 ? { weather } : {};
    return core.dressDrawing(drawing, {
      ...values,
      even: !values.noEven,
      ...(reliefs.length > 0 && { relief: reliefs }),
      ...aged,
      ...printingOf(values),
      ...job,
    });
  },
  describe: (report) => [
    `${report.output}, ${countOf(report)} covered, ${inBytes(report.bytesAfter)}`,
    ...inColumns([
      ['scale', `${scaleInWords(report.scale)}, for ${inDigits(report.dpi)} dpi`],
      ...report.surfaces.map((surface) => [surface.surface, surfaceInWords(surface)] as const),
      ['weather', weatherInWords(report.weather)],
      ['relief', reliefInWords(report.outlines)],
      ...turnedIn(report.outlines),
      ['print', printedInWords(report.printing)],
    ]),
  ],
});

function countOf({ outlines }: DressedDrawing): string {
  return outlines.length === 1 ? '1 outline' : `${outlines.length} outlines`;
}

function surfaceInWords(surface: DressedSurface): string {
  const { outlines, picture, pictures, scaleErrorPercent } = surface;
  const { widthPx, heightPx, file } = picture;
  const bytes = pictures.reduce((sum, one) => sum + one.bytes, 0);
  const where = file === null ? 'in the drawing' : `in ${file}`;
  const count = outlines === 1 ? '1 outline' : `${outlines} outlines`;
  const error = inDigits(Math.abs(scaleErrorPercent), 2);
  const shown =
    pictures.length === 1
      ? `one picture of ${widthPx} x ${heightPx} px`
      : pictures.length === outlines
        ? `a picture each, ${pictures.length} of them`
        : `${pictures.length} pictures`;
  return `${count}, ${shown}, ${inBytes(bytes)}, ${where}; scale off by ${error} %`;
}

function printedInWords(report: DressedDrawing['printing']): string | null {
  const words = printingInWords(report);
  return words && `${words}; photos alone, flat colours of the drawing stay`;
}

function reliefInWords(outlines: readonly DressedOutline[]): string | null {
  const kinds = outlines.flatMap(({ relief }) => relief ?? []);
  if (kinds.length === 0) return null;
  return [...new Set(kinds)]
    .map((kind) => `${kinds.filter((one) => one === kind).length} ${kind}`)
    .join(', ');
}

function turnedIn(outlines: readonly DressedOutline[]): (readonly [string, string])[] {
  return outlines
    .filter(({ turnedDegrees }) => turnedDegrees !== 0)
    .map(({ id, turnedDegrees }) => [id, `courses turned by ${inDigits(turnedDegrees)} degrees`]);
}
