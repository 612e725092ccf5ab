import type { LimitOptions } from '../../limits/limits.js';
import { fillFields } from '../build/fields/part-fields.js';
import { type FieldsOf, keysOf, text } from '../build/fields/field.js';
import { printingFields } from '../build/fields/printing-fields.js';
import { sheetFields } from '../build/fields/sheet-fields.js';
import { topFields, type TopValues } from '../build/job-schema.js';
import type { YamlForm } from '../build/yaml-form.js';
import { limitFields } from './limit-fields.js';
import type { PrintingOptions } from '../print/printing-options.js';

/** What a file of defaults tells, beside printing, by its keys. */
export interface ConfigValues
  extends
    Pick<TopValues, 'region' | 'dpi' | 'paper' | 'margin' | 'printerX' | 'printerY'>,
    LimitOptions {
  /** Of the model, as typed: its region may stand in another file. */
  readonly scale?: string;
}

/** Its keys. */
export const configFields: FieldsOf<ConfigValues> = {
  region: topFields.region,
  scale: text('of the model: 1:148, or N-UK', (typed) => typed),
  dpi: fillFields.dpi,
  paper: sheetFields.paper,
  margin: sheetFields.margin,
  printerX: sheetFields.printerX,
  printerY: sheetFields.printerY,
  ...limitFields,
};

/** What it tells of printing. */
export const configPrinting: FieldsOf<PrintingOptions> = {
  printer: text('a profile, which gaugerod sheet --strip-photo writes', (typed) => typed),
  ...printingFields,
};

type Entry = Readonly<Record<string, unknown>>;

/** What a file of defaults holds, values still as written. */
export interface ConfigData extends Entry {
  /** What is done to colours. */
  readonly printing?: Entry | null;
  /** Another file of references. */
  readonly references?: string;
}

/** The form of a file of defaults as a JSON Schema (draft 2020-12); the package holds it as `schema/config.schema.json` too. */
export const configSchema: Readonly<Record<string, unknown>> = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'gaugerod:config/1',
  title: 'Defaults for gaugerod',
  description: 'What options and job files do not say. Every path is relative to this file.',
  type: ['object', 'null'],
  additionalProperties: false,
  properties: {
    gaugerod: { description: 'version of this form', const: 1 },
    ...keysOf(configFields),
    printing: {
      description: 'what is done to the colours of parts so that they print as on the screen',
      type: ['object', 'null'],
      additionalProperties: false,
      properties: keysOf(configPrinting),
    },
    references: {
      description: 'another file of your own references, in place of the one in your folder',
      type: 'string',
      minLength: 1,
    },
  },
};

/** What a file of defaults is held against. */
export const configForm: YamlForm = {
  what: 'a file of defaults',
  code: 'bad-config',
  schema: configSchema,
};
