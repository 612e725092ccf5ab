import { parseShare, parseWhole } from '../../../units/parse-number.js';
import { parseSigned } from '../../../units/parse-place.js';
import { parseFixing, parseLedge } from '../../../finish/weather/parse-weather.js';
import type { Ledge, WallPoint } from '../../../finish/weather/site.js';
import { facings, weatherPresets } from '../../../finish/weather/strengths.js';
import { parsePaintKey } from '../../../drawing/dress/paint-key.js';
import type { DressWeather } from '../../dress/dress-weather.js';
import type { WeatherOptions } from '../../weather/weather-options.js';
import { choice, type Field, type FieldsOf, several, text } from './field.js';

const share = (description: string): Field<number> => text(`${description}, 0 to 1`, parseShare);

/** Weather as it is written. */
export interface WeatherValues extends Omit<WeatherOptions, 'ledges' | 'fixings'> {
  /** Sills and copings, each of one or more lines. */
  readonly ledge?: readonly (readonly Ledge[])[];
  /** Iron that rusts. */
  readonly fixing?: readonly (readonly WallPoint[])[];
}

const common: FieldsOf<Omit<WeatherOptions, 'ledges' | 'fixings'>> = {
  preset: choice('how a wall of its age looks', weatherPresets),
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
