import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';

/**
 * Make of a form what holds data against it. In the bundle this module is the code that ajv makes of all
 * forms, so that the command does not load ajv.
 *
 * @param schema - The form, a JSON Schema with an `$id`.
 * @returns What tells whether data keeps to it, and holds what does not.
 */
export function compileForm(schema: Readonly<Record<string, unknown>>): ValidateFunction {
  return formCompiler().compile(schema);
}

/**
 * Make what compiles forms.
 *
 * @returns It, with no form yet.
 */
export function formCompiler(): Ajv2020 {
  return new Ajv2020({
    allErrors: true,
    verbose: true,
    allowUnionTypes: true,
    unicodeRegExp: true,
    // Our own forms, which tests hold against the standard: to compile that too, and what is compiled shorter, took a
    // seventh of a build that does nothing.
    meta: false,
    validateSchema: false,
    // As a module, where it is written into the bundle.
    code: { optimize: false, source: true, esm: true },
  });
}
