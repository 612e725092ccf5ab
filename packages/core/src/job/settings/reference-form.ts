import { ownIdInWords, ownIdPattern } from '../../catalogue/check-own.js';
import { ownKinds, type OwnReference } from '../../catalogue/own-reference.js';
import { parseRealLength } from '../../units/parse-length.js';
import { parseNote } from '../../units/parse-note.js';
import { choice, type FieldsOf, keysOf, text } from '../build/fields/field.js';
import type { YamlForm } from '../build/yaml-form.js';

/** What is told of a reference, as it is written; what is left out is not known. */
export type OwnValues = {
  readonly [Name in keyof Omit<OwnReference, 'id'>]?: NonNullable<OwnReference[Name]>;
};

/** What is told of a reference. */
export const referenceFields: FieldsOf<OwnValues> = {
  name: text('as people say it; its id unless told', parseNote),
  kind: choice('what it is; brick unless told', ownKinds),
  course: text(
    'from bed joint to bed joint, or what shows of a board or tile: 76mm',
    parseRealLength,
  ),
  tolerance: text('how far the course may be off, either way: 1mm', parseRealLength),
  length: text('of a long face, without mortar: 228mm', parseRealLength),
  lengthTolerance: text(
    'how far that may be off; what BS EN 771-1 allows unless told',
    parseRealLength,
  ),
  width: text('of a short face, without mortar: 110mm', parseRealLength),
  joint: text('the mortar between two: 9mm', parseRealLength),
  source: text('what is published of it, or who measured it and how', parseNote),
};

/** What a file of references holds, values still as written. */
export interface ReferenceData {
  /** By id. */
  readonly references?: Readonly<Record<string, Readonly<Record<string, unknown>>>> | null;
}

/** The form of a file of references as a JSON Schema (draft 2020-12); the package holds it as `schema/references.schema.json` too. */
export const referenceSchema: Readonly<Record<string, unknown>> = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'gaugerod:references/1',
  title: 'References of your own for gaugerod',
  description: 'Bricks, blocks, roofs and boards that the catalogue does not hold.',
  type: ['object', 'null'],
  additionalProperties: false,
  properties: {
    gaugerod: { description: 'version of this form', const: 1 },
    references: {
      description: 'by id, each unlike those of the catalogue',
      type: ['object', 'null'],
      maxProperties: 1000,
      propertyNames: {
        title: 'a reference',
        description: ownIdInWords,
        pattern: ownIdPattern,
      },
      additionalProperties: {
        description: 'a reference',
        type: 'object',
        additionalProperties: false,
        properties: keysOf(referenceFields),
        required: ['course', 'tolerance', 'source'],
      },
    },
  },
};

/** What a file of references is held against. */
export const referenceForm: YamlForm = {
  what: 'a file of references',
  code: 'bad-references',
  schema: referenceSchema,
};
