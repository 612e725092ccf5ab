import {
  dressFields,
  dressReliefFields,
  fillFields,
  type FillValues,
  piecesFields,
  reliefFields,
  slimFields,
  type ReliefValues,
  wallFields,
} from './fields/part-fields.js';
import { choice, type FieldsOf, keysOf, text, yesOrNo } from './fields/field.js';
import { printingFields } from './fields/printing-fields.js';
import { sheetFields, type SheetValues } from './fields/sheet-fields.js';
import {
  extendFields,
  mendFields,
  surfaceFields,
  type SurfaceValues,
} from './fields/surface-fields.js';
import { dressWeatherFields, weatherFields } from './fields/weather-fields.js';
import { outOfRange } from '../../errors/out-of-range.js';

type Schema = Readonly<Record<string, unknown>>;

// What becomes part of a file's name, on any system.
const name = {
  pattern: String.raw`^(?![ .])(?!(?:[cC][oO][nN]|[pP][rR][nN]|[aA][uU][xX]|[nN][uU][lL]|[cC][oO][mM]\d|[lL][pP][tT]\d)(?:\.|$))[\p{L}\p{N} ._()+-]{1,80}(?<![ .])$`,
  description: 'letters, digits, blanks and . _ - + ( )',
};

const path = (description: string): Schema => ({ description, type: 'string', minLength: 1 });

function entry(description: string, properties: Schema, required: readonly string[] = []): Schema {
  return { description, type: 'object', additionalProperties: false, properties, required };
}

function named(description: string, of: Schema): Schema {
  return { description, type: 'object', propertyNames: name, additionalProperties: of };
}

function parseOutput(typed: string, key: string): string {
  if (typed.trim() !== '' && !typed.includes('\0')) return typed;
  throw outOfRange('a folder', key, typed);
}

/** What stands at the top of a job file: for all parts and sheets that do not say otherwise. */
export interface TopValues
  extends
    Pick<FillValues, 'dpi' | 'bleed'>,
    Pick<SurfaceValues, 'even'>,
    Pick<ReliefValues, 'light' | 'strength'>,
    Pick<SheetValues, 'paper' | 'margin' | 'printerX' | 'printerY'> {
  /** Where short names of scales are meant. */
  readonly region?: 'UK' | 'EU' | 'US' | 'JP' | 'FR';
  /** The folder that files are written into. */
  readonly output?: string;
  /** What parts of a surface are written as. */
  readonly format?: 'png' | 'tif' | 'jpg' | 'webp' | 'svg' | 'pdf';
}

/** Keys of the top. */
export const topFields: FieldsOf<TopValues> = {
  region: choice('where short names of scales are meant', ['UK', 'EU', 'US', 'JP', 'FR']),
  output: text('the folder that files are written into; out unless told', parseOutput),
  format: choice('what parts of a surface are written as; png unless told', [
    'png',
    'tif',
    'jpg',
    'webp',
    'svg',
    'pdf',
  ]),
  dpi: fillFields.dpi,
  bleed: fillFields.bleed,
  even: yesOrNo('slow changes of light and colour are taken out; true unless told'),
  light: reliefFields.light,
  strength: reliefFields.strength,
  paper: sheetFields.paper,
  margin: sheetFields.margin,
  printerX: sheetFields.printerX,
  printerY: sheetFields.printerY,
};

const weather = entry('soot, damp, rust and the like', keysOf(weatherFields));
const printing = entry('what is done to colours so that they print as on the screen', {
  printer: path('a profile, which gaugerod sheet --strip-photo writes'),
  ...keysOf(printingFields),
});
const scale = text('a ratio, 1:148, or a name with its region, N-UK', (typed) => typed).schema;
const file = path('the file to write, in the folder of outputs; its extension says what kind');

const surface = entry(
  'a photo, and what is known of it',
  {
    photo: path('the photo'),
    ...keysOf(surfaceFields),
    mend: entry('how its ends are joined', keysOf(mendFields)),
    extend: entry('in place of mend: more of the wall than the photo shows', {
      photos: {
        description: 'other photos of the same wall',
        type: 'array',
        minItems: 1,
        maxItems: 31,
        items: { type: 'string', minLength: 1 },
      },
      ...keysOf(extendFields),
    }),
  },
  ['photo'],
);

const fill = entry(
  'a part that is filled with a surface',
  {
    surface: path('which of the surfaces'),
    outline: path('or the shape to cover, in a drawing: front.svg, or front.svg#gable'),
    file,
    scale,
    ...keysOf(fillFields),
    ...keysOf(wallFields),
    weather,
    printing,
  },
  ['surface'],
);

const relief = entry(
  'a rolled section, a plate or a girder',
  {
    relief: entry('what it is', {
      ...keysOf(reliefFields),
      along: path('or what it is bent along, in a drawing: bridge.svg#arch'),
      outline: path('or the shape of a panel, in a drawing: door.svg#panel'),
    }),
    surface: path('what lies under it: one of the surfaces'),
    file,
    scale,
    ...keysOf(piecesFields),
    weather,
    printing,
  },
  ['relief'],
);

const slim: Schema = {
  description: 'pictures that the drawing holds are made smaller: true, or how',
  type: ['boolean', 'object'],
  additionalProperties: false,
  properties: {
    find: path('a folder in which missing pictures are looked for'),
    ...keysOf(slimFields),
  },
};

// Of a drawing, whatever is done to it.
const drawn: Schema = {
  drawing: path('the drawing, .svg'),
  slim,
  link: path('a folder that pictures are written into, in the folder of outputs'),
  file,
  scale,
};

const slimmed = entry(
  'a drawing whose pictures are made smaller',
  { ...drawn, dpi: dressFields.dpi.schema, embed: dressFields.embed.schema },
  ['drawing', 'slim'],
);

const dress = entry(
  'a drawing whose outlines are covered',
  {
    ...drawn,
    paint: {
      description: 'fill colour, #id or .class of outlines: which surface covers them',
      type: 'object',
      minProperties: 1,
      additionalProperties: path('one of the surfaces'),
    },
    relief: {
      description: 'fill colour, #id or .class of covered outlines: what each is in relief',
      type: 'object',
      minProperties: 1,
      additionalProperties: entry('what it is', keysOf(dressReliefFields)),
    },
    weather: entry('soot, damp, rust and the like', keysOf(dressWeatherFields)),
    printing,
    ...keysOf(dressFields),
  },
  ['drawing', 'paint'],
);

const sheet = entry(
  'pages that parts are laid on',
  {
    parts: {
      description: 'which parts, in order; one named twice is printed twice',
      type: 'array',
      minItems: 1,
      items: { type: 'string' },
    },
    file,
    checkBar: { description: 'bars of 100 mm stand on every page', const: true },
    ...keysOf(sheetFields),
  },
  ['parts'],
);

const part: Schema = {
  type: 'object',
  // For editors, which complete from here.
  properties: {
    surface: { description: 'which of the surfaces' },
    relief: { description: 'or a rolled section, a plate or a girder' },
    drawing: { description: 'or a drawing whose outlines are covered, or that is made smaller' },
  },
  if: { type: 'object', required: ['drawing'] },
  then: {
    if: { type: 'object', required: ['slim'], not: { required: ['paint'] } },
    then: slimmed,
    else: dress,
  },
  else: { if: { type: 'object', required: ['relief'] }, then: relief, else: fill },
};

/** The form of a job file as a JSON Schema (draft 2020-12); the package holds it as `schema/works.schema.json` too. */
export const jobSchema: Readonly<Record<string, unknown>> = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'gaugerod:works/1',
  title: 'A job for gaugerod build',
  description: 'What a model is made of. Every path is relative to this file.',
  type: 'object',
  additionalProperties: false,
  required: ['gaugerod', 'scale', 'parts'],
  properties: {
    gaugerod: { description: 'version of this form', const: 1 },
    scale: {
      description: 'of the model: 1:148 or N-UK; a list makes everything at each of them',
      type: ['string', 'number', 'array'],
      items: { type: ['string', 'number'] },
      minItems: 1,
      maxItems: 10,
    },
    ...keysOf(topFields),
    weather,
    printing,
    surfaces: named('photos, each measured and made to repeat once', surface),
    parts: { ...named('pieces to print', part), minProperties: 1 },
    sheets: named('pages of parts at true size', sheet),
  },
};
