import { outOfRange } from '../../../errors/out-of-range.js';
import { parseShare, parseWhole } from '../../../units/parse-number.js';
import { parsePlaces, parseSigned, type Place } from '../../../units/parse-place.js';
import { facings } from '../../../finish/weather/strengths.js';
import { parsePaintKey } from '../../../drawing/dress/paint-key.js';
import type { DressWeather } from '../../dress-weather.js';
import type { WeatherOptions } from '../../weather-options.js';
import { choice, type Field, type FieldsOf, several, text } from './field.js';

const share = (description: string): Field<number> => text(`${description}, 0 to 1`, parseShare);

function parseLedge(typed: string, name: string): readonly Ledge[] {
  const points = parsePlaces(typed, name);
  if (points === null || points.length < 2)
    throw outOfRange('two or more points such as "10,24 34,24"', name, typed);
  return points.slice(1).map((to, i) => ({ from: points[i]!, to }));
}

type Ledge = NonNullable<WeatherOptions['ledges']>[number];

function parseFixing(typed: string, name: string): readonly Place[] {
  const points = parsePlaces(typed, name);
  if (points === null) throw outOfRange('points such as "12,30 40,30"', name, typed);
  return points;
}

/** Weather as it is written. */
export interface WeatherValues extends Omit<WeatherOptions, 'ledges' | 'fixings'> {
  /** Sills and copings, each of one or more lines. */
  readonly ledge?: readonly (readonly Ledge[])[];
  /** Iron that rusts. */
  readonly fixing?: readonly (readonly Place[])[];
}

const common: FieldsOf<Omit<WeatherOptions, 'ledges' | 'fixings'>> = {
  preset: choice('how a wall of its age looks', ['fresh', 'settled', 'grimy', 'derelict']),
  soot: share('how black smoke has made it'),
  streaks: share('dirt that rain carries down from sills and copings'),
  damp: share('wet risen from the foot'),
  rust: share('what runs down from iron'),
  moss: share('moss and lichen on ledges and at the foot'),
  salts: share('efflorescence, the white bloom on bricks'),
  fade: share('colours bleached by the sun'),
  grime: share('dirt in joints and hollows'),
  patches: share('places pointed anew'),
  seed: text('another gives the wall another past', (typed, name) =>
    parseWhole(typed, name, { least: 0, most: 2 ** 32 - 1 }),
  ),
  facing: choice('which way the wall looks', facings),
  foot: text('how far below the datum the wall stands on the ground', parseSigned),
};

/** What weather does to a part; lengths are mm of paper from the datum. */
export const weatherFields: FieldsOf<WeatherValues> = {
  ...common,
  ledge: several(
    'a sill or coping that water runs from, "10,24 34,24"; a list for more',
    parseLedge,
  ),
  fixing: several('iron that rusts, "12,30 40,30"', parseFixing),
};

/** What weather does to a drawing's walls. */
export const dressWeatherFields: FieldsOf<DressWeather> = {
  ...common,
  ledges: several('outlines that water runs from: .sill, #coping; a list for more', parsePaintKey),
  fixings: several('outlines of iron that rusts', parsePaintKey),
};
