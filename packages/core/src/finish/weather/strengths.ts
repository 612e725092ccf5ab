import { outOfRange } from '../../errors/out-of-range.js';

/** What weather does to a wall, each from 0, not at all, to 1, as much as is ever seen. */
export interface WeatherStrengths {
  /** Darkening by smoke, most where rain does not reach. */
  readonly soot: number;
  /** Dirt that rain carries down from sills and copings. */
  readonly streaks: number;
  /** Wet that rises from the foot, up to its tide mark. */
  readonly damp: number;
  /** What runs down from iron. */
  readonly rust: number;
  /** Growth on ledges, at the foot, and on sides that the sun does not dry. */
  readonly moss: number;
  /** Efflorescence: the white bloom of salts. */
  readonly salts: number;
  /** Colours bleached by the sun. */
  readonly fade: number;
  /** Dirt in joints and hollows. */
  readonly grime: number;
  /** Places that were pointed anew or smeared over. */
  readonly patches: number;
}

/** One kind of weather. */
export type WeatherName = keyof WeatherStrengths;

/** Which way a wall looks: north sides grow green, south sides fade. */
export type Facing = 'north' | 'east' | 'south' | 'west';

/** Every way it may look. */
export const facings: readonly Facing[] = ['north', 'east', 'south', 'west'];

/** Each by its name, in the order in which they are told of. */
export const weatherNames: readonly WeatherName[] = [
  'soot',
  'streaks',
  'damp',
  'rust',
  'moss',
  'salts',
  'fade',
  'grime',
  'patches',
];

/** A wall of a certain age, in plain words. */
export type WeatherPreset = 'fresh' | 'settled' | 'grimy' | 'derelict';

// Common practice, no source: what looks right on a model beside photographs of walls. New brickwork
// shows salts before anything else.
const presets: Readonly<Record<WeatherPreset, WeatherStrengths>> = {
  fresh: {
    soot: 0.05,
    streaks: 0.05,
    damp: 0,
    rust: 0,
    moss: 0,
    salts: 0.3,
    fade: 0,
    grime: 0.05,
    patches: 0,
  },
  settled: {
    soot: 0.2,
    streaks: 0.3,
    damp: 0.2,
    rust: 0,
    moss: 0.2,
    salts: 0.2,
    fade: 0.3,
    grime: 0.3,
    patches: 0.15,
  },
  grimy: {
    soot: 0.75,
    streaks: 0.5,
    damp: 0.3,
    rust: 0.25,
    moss: 0.1,
    salts: 0.2,
    fade: 0.2,
    grime: 0.7,
    patches: 0.2,
  },
  derelict: {
    soot: 0.45,
    streaks: 0.8,
    damp: 0.8,
    rust: 0.7,
    moss: 0.8,
    salts: 0.5,
    fade: 0.5,
    grime: 0.6,
    patches: 0.6,
  },
};

/** Every preset's name. */
export const weatherPresets: readonly WeatherPreset[] = ['fresh', 'settled', 'grimy', 'derelict'];

/** What may be told of how strong weather is: a preset, and what differs from it. */
export interface WeatherWish extends Partial<WeatherStrengths> {
  /** Where to begin from; from nothing at all unless told. */
  readonly preset?: WeatherPreset;
}

/**
 * Settle how strong each kind of weather is.
 *
 * @param wish - A preset, and what differs from it.
 * @returns Every strength.
 * @throws RangeError when a strength is not 0 to 1, or there is no such preset.
 */
export function settleStrengths(wish: WeatherWish): WeatherStrengths {
  const { preset } = wish;
  if (preset !== undefined && !weatherPresets.includes(preset)) {
    throw outOfRange(`one of ${weatherPresets.join(', ')}`, 'preset', preset);
  }
  const from = preset === undefined ? null : presets[preset];
  const strengths = weatherNames.map((name) => {
    const strength = wish[name] ?? from?.[name] ?? 0;
    if (!(strength >= 0 && strength <= 1)) throw outOfRange('0 to 1', name, strength);
    return [name, strength] as const;
  });
  return Object.fromEntries(strengths) as unknown as WeatherStrengths;
}
