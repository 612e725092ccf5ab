import type { Core, ListOption, TextOption, Values } from './option.js';
import { seed as seedOf } from './seed.js';

type Weather = NonNullable<Parameters<Core['fillPhoto']>[1]['weather']>;
type DressWeather = NonNullable<Parameters<Core['dressDrawing']>[1]['weather']>;
type PaintKey = NonNullable<DressWeather['ledges']>[number];
type Ledge = NonNullable<Weather['ledges']>[number];
type Place = NonNullable<Weather['fixings']>[number];

type Preset = NonNullable<Weather['preset']>;
type Facing = NonNullable<Weather['facing']>;

const preset: TextOption<Preset> = {
  flag: '--weather <name>',
  help: 'how a wall of its age looks: fresh, settled, grimy or derelict; a strength of its own overrides it',
  parse: (text, { name, core }) => core.parsePreset(text, name),
};

function share(name: string, help: string): TextOption<number> {
  return {
    flag: `--${name} <0-1>`,
    help,
    parse: (text, { name, core }) => core.parseShare(text, name),
  };
}

const soot: TextOption<number> = share(
  'soot',
  'how black smoke has made it, most where no rain gets',
);
const streaks: TextOption<number> = share(
  'streaks',
  'dirt that rain carries down from sills and copings',
);
const damp: TextOption<number> = share('damp', 'wet risen from the foot, with its tide mark');
const rust: TextOption<number> = share('rust', 'what runs down from iron');
const moss: TextOption<number> = share('moss', 'moss and lichen on ledges and at the foot');
const salts: TextOption<number> = share('salts', 'efflorescence: the white bloom on bricks');
const fade: TextOption<number> = share('fade', 'colours bleached by the sun');
const grime: TextOption<number> = share('grime', 'dirt in joints and hollows');
const patches: TextOption<number> = share(
  'patches',
  'places pointed anew, and here and there a smear of render',
);

const seed: TextOption<number> = {
  ...seedOf,
  help: 'another gives the wall another past (default: 1)',
};

const facing: TextOption<Facing> = {
  flag: '--facing <side>',
  help: 'which way the wall looks: north grows green all over, south fades',
  parse: (text, { name, core }) => core.parseFacing(text, name),
};

const ledgeFlag = '--ledge <points>';
const fixingFlag = '--fixing <points>';
const footFlag = '--foot <length>';

// An alias, not an interface: commands look options up by any name.
type PlacedOptions = Readonly<{
  ledges: ListOption<readonly Ledge[]>;
  fixings: ListOption<readonly Place[]>;
  foot: TextOption<number>;
}>;

interface PlacesInWords {
  readonly unit: string;
  readonly from: string;
  readonly ledges: string;
  readonly foot: string;
}

function placedIn({ unit, from, ledges, foot }: PlacesInWords): PlacedOptions {
  return {
    ledges: {
      flag: ledgeFlag,
      help: `a sill, coping or string course that water runs from, "x,y x,y" in ${unit} from ${from}; give it again for more (${ledges})`,
      many: true,
      parse: (text, { name, core }) => core.parseLedge(text, name),
    },
    fixings: {
      flag: fixingFlag,
      help: `iron that rusts, "x,y x,y" in ${unit} from ${from} (default: a few by chance)`,
      many: true,
      parse: (text, { name, core }) => core.parseFixing(text, name),
    },
    foot: {
      flag: footFlag,
      help: `how far below ${from} the wall stands on the ground, in ${unit} (default: ${foot})`,
      parse: (text, { name, core }) => core.parseSigned(text, name),
    },
  };
}

const onWall = { from: 'the datum', ledges: "default: the wall's top, at the datum" };

const strengths: {
  readonly preset: typeof preset;
  readonly soot: typeof soot;
  readonly streaks: typeof streaks;
  readonly damp: typeof damp;
  readonly rust: typeof rust;
  readonly moss: typeof moss;
  readonly salts: typeof salts;
  readonly fade: typeof fade;
  readonly grime: typeof grime;
  readonly patches: typeof patches;
  readonly seed: typeof seed;
  readonly facing: typeof facing;
} = { preset, soot, streaks, damp, rust, moss, salts, fade, grime, patches, seed, facing };

type WeatherGroup = typeof strengths & PlacedOptions;

/** What weather does to a part: lengths are those on paper. */
export const partWeather: WeatherGroup = {
  ...strengths,
  ...placedIn({
    unit: 'mm of paper',
    from: 'the datum',
    ledges:
      "default: the wall's top, at the datum; an outline's upper edges and string courses beside",
    foot: 'at the lower edge of this piece',
  }),
};

/** What weather does to pieces in relief: lengths are those on paper. */
export const reliefWeather: WeatherGroup = {
  ...strengths,
  ...placedIn({
    unit: 'mm of paper',
    from: "a piece's top left corner",
    ledges: 'beside all its edges but the lowest',
    foot: 'nowhere, and no damp',
  }),
  preset: {
    ...preset,
    help: `${preset.help}. Of masonry alone, and left out unless told: --salts, --patches`,
  },
};

const parseKey: TextOption<PaintKey>['parse'] = (text, { name, core }) =>
  core.parsePaintKey(text, name);

type DressWeatherGroup = typeof strengths &
  Readonly<{
    ledges: ListOption<PaintKey>;
    fixings: ListOption<PaintKey>;
    foot: TextOption<number>;
  }>;

/** What weather does to a drawing's walls: what is where is taken from its outlines. */
export const dressWeather: DressWeatherGroup = {
  ...strengths,
  ledges: {
    flag: '--ledges <key>',
    help: 'sills, copings, windows or lines of the drawing that water runs from, by their fill colour, #id or .class; give it again for more (beside upper edges of what is covered: tops, and sills under holes)',
    many: true,
    parse: parseKey,
  },
  fixings: {
    flag: '--fixings <key>',
    help: 'outlines of iron that rusts, likewise (default: a few by chance)',
    many: true,
    parse: parseKey,
  },
  foot: {
    flag: footFlag,
    help: 'how far below the datum walls stand on the ground, in mm of paper (default: at the lowest edge of each wall)',
    parse: (text, { name, core }) => core.parseSigned(text, name),
  },
};

/**
 * Put what was said of the weather of a drawing into the one form that jobs know.
 *
 * @param values - A command's options, once read.
 * @returns What of it is weather; empty where none was.
 */
export function dressWeatherOf(values: Values<DressWeatherGroup>): DressWeather {
  const { ledges, fixings, ...others } = values;
  return {
    ...weatherOf(others),
    ...(ledges && { ledges }),
    ...(fixings && { fixings }),
  } as DressWeather;
}

/** What weather does to a photo: lengths are those of the real wall. */
export const photoWeather: WeatherGroup = {
  ...strengths,
  ...placedIn({ ...onWall, unit: 'mm of the real wall', foot: 'at the lower edge of this photo' }),
};

/**
 * Put what was said of the weather into the one form that jobs know.
 *
 * @param values - A command's options, once read.
 * @returns What of it is weather; empty where none was.
 */
export function weatherOf(values: Values<WeatherGroup>): Weather {
  const { ledges, fixings, ...others } = values;
  const told = Object.keys(strengths).filter((name) => name in others);
  return {
    ...Object.fromEntries(told.map((name) => [name, others[name as keyof typeof others]])),
    ...(others.foot === undefined ? {} : { foot: others.foot }),
    ...(ledges && { ledges: ledges.flat() }),
    ...(fixings && { fixings: fixings.flat() }),
  };
}
