import { pictureLimits } from '../options/limits.js';
import type { TextOption } from '../options/option.js';
import { output } from '../options/output.js';
import { reference } from '../options/reference.js';
import { repeat } from '../options/repeat.js';
import { straightenOf } from '../options/straighten-of.js';
import { photoWeather, weatherOf } from '../options/weather.js';
import { inColumns } from '../print/in-columns.js';
import { measurementLines } from '../print/measurement-lines.js';
import { weatherInWords } from '../print/weather-in-words.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

const datum: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--datum <x,y>',
  help: 'where this photo lies on the whole wall, in mm of the real wall to the right and down, so that one weather goes on from photo to photo (default: 0,0)',
  parse: (text, { name, core }) => core.parsePlace(text, name, 'a point such as 2400,0'),
};

/** `gaugerod weather`. */
export const weather: Command = defineCommand({
  argumentHelp: 'a photo of a wall, roof or floor, or a tile made of one',
  description:
    'Weather a wall before it is printed: soot, rain streaks, damp, rust, moss, salts, fading, grime and mended places. Everything lies where it lies on the real wall, in millimetres, so that the same wall gets the same weather at any size. Without a strength or --weather it is settled. A piece for a model is weathered better by fill, which takes the same options: no two repeats of its tile are then alike.',
  examples: [
    {
      line: 'weather wall.jpg --course uk-metric --weather grimy -o works.png',
      does: 'A wall near chimneys:',
    },
    {
      line: 'weather wall.jpg --damp 0.6 --moss 0.4 --facing north -o shade.png',
      does: 'A damp side that no sun dries, from a measured photo:',
    },
    {
      line: 'weather wall.jpg --weather settled --ledge "400,900 1300,900" -o sill.png',
      does: 'Streaks from a sill, 0.9 m wide, 0.9 m below the top:',
    },
    {
      line: 'weather tile.png --course uk-metric --soot 0.5 --grime 0.4 --repeat both -o sooty.png',
      does: 'A tile that stays a tile:',
    },
  ],
  caution: 'Check that the terms of the photo allow printing, and selling, the model.',
  options: { output, ...photoWeather, datum, repeat, ...reference, ...pictureLimits },
  run: (photo, values, { core, ...job }) =>
    core.weatherPhoto(photo, {
      ...known(values),
      ...weatherOf(values),
      ...straightenOf(values),
      ...job,
    }),
  describe: (report) => [
    `${report.output}, ${report.width} x ${report.height} px`,
    ...inColumns([
      ['weather', weatherInWords(report.weather)],
      ['repeats', report.repeat === null ? null : ways[report.repeat]],
      ...measurementLines(report.measurement),
    ]),
  ],
});

const ways = {
  x: 'side by side, as before',
  y: 'one above the other, as before',
  both: 'both ways, as before',
};

// All but what weatherOf puts into another form.
function known<Given extends object>(values: Given): Omit<Given, 'ledges' | 'fixings'> {
  const others = Object.entries(values).filter(([name]) => name !== 'ledges' && name !== 'fixings');
  return Object.fromEntries(others) as Omit<Given, 'ledges' | 'fixings'>;
}
