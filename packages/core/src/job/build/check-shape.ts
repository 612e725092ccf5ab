import type { ErrorObject } from 'ajv/dist/2020.js';
import { nearNames } from '../../catalogue/near-names.js';
import { BadJob, type JobPath } from './bad-job.js';
import { compileForm } from './compile-form.js';
import type { YamlForm } from './yaml-form.js';

/** As many faults as are looked at: nobody reads more. */
export const mostFaults = 100;

/**
 * Hold what is written against its form.
 *
 * @param data - As written.
 * @param form - What it is to be.
 * @returns What does not fit, up to {@link mostFaults}, in no order; none where all does.
 */
export function checkShape(
  data: unknown,
  form: Pick<YamlForm, 'schema' | 'what'>,
): readonly BadJob[] {
  const validate = compileForm(form.schema);
  if (validate(data)) return [];
  const errors = validate.errors ?? [];
  // What is missing is most often what is misspelt beside it.
  const misspelt = new Set(errors.filter(isUnknown).map(({ instancePath }) => instancePath));
  return errors
    .filter(
      ({ keyword, instancePath }) =>
        !['if', 'propertyNames'].includes(keyword) &&
        !(keyword === 'required' && misspelt.has(instancePath)),
    )
    .slice(0, mostFaults)
    .map((error) => inWords(error, form.what));
}

function isUnknown({ keyword }: ErrorObject): boolean {
  return keyword === 'additionalProperties';
}

function inWords(error: ErrorObject, what: string): BadJob {
  const path = toPath(error.instancePath);
  const at = { path, name: path.length === 0 ? what : path.join('.') };
  const { keyword, params } = error;
  switch (keyword) {
    case 'additionalProperties':
      return unknownKey(at, String(params['additionalProperty']), error);
    case 'required':
      return missingKey(at, String(params['missingProperty']), error);
    case 'pattern':
      return badName(path, error);
    default:
      return badValue(at, error);
  }
}

// Pointers of JSON (RFC 6901).
function toPath(pointer: string): JobPath {
  return pointer
    .split('/')
    .slice(1)
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
}

interface Place {
  readonly path: JobPath;
  // As it is called in a sentence.
  readonly name: string;
}

interface Parent {
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly title?: string;
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
}

function unknownKey({ path, name }: Place, key: string, { parentSchema }: ErrorObject): BadJob {
  const { properties = {} } = (parentSchema ?? {}) as Parent;
  const isPart = path.length === 2 && path[0] === 'parts';
  const known = [...Object.keys(properties), ...(isPart ? ['relief', 'drawing'] : [])];
  const near = nearNames(key, known);
  const hint =
    near.length > 0 ? `did you mean ${near.join(' or ')}?` : `known here: ${known.join(', ')}`;
  return new BadJob([...path, key], `unknown key ${JSON.stringify(key.slice(0, 80))} in ${name}`, {
    hint,
    atKey: true,
  });
}

function missingKey({ path, name }: Place, key: string, { parentSchema }: ErrorObject): BadJob {
  const { properties = {} } = (parentSchema ?? {}) as Parent;
  const { description } = (properties[key] ?? {}) as Parent;
  const what = description === undefined ? '' : `, ${description}`;
  return new BadJob(path, `${name} needs ${key}${what}`, { atKey: true });
}

function badName(path: JobPath, { propertyName = '', parentSchema }: ErrorObject): BadJob {
  const { title = 'a file', description = '' } = (parentSchema ?? {}) as Parent;
  const shown = JSON.stringify(propertyName.slice(0, 80));
  const message = `${shown} cannot name ${title}: expected ${description}`;
  return new BadJob([...path, propertyName], message, { atKey: true });
}

const kinds = new Map<string, string>([
  ['string', 'a text'],
  ['number', 'a number'],
  ['boolean', 'true or false'],
  ['array', 'a list'],
  ['object', 'keys and what they hold'],
]);

function badValue({ path, name }: Place, { parentSchema, data, keyword }: ErrorObject): BadJob {
  const parent = (parentSchema ?? {}) as Parent;
  const what = parent.description === undefined ? '' : ` (${parent.description})`;
  if (path[0] === 'gaugerod' && path.length === 1 && typeof data === 'number' && data > 1) {
    return new BadJob(path, `is of form ${data}, and 1 is the newest known here`, {
      hint: 'use a newer gaugerod',
    });
  }
  const expected = expectedOf(parent, keyword);
  return new BadJob(path, `expected ${expected} for ${name}${what}, got ${show(data)}`);
}

function expectedOf(parent: Parent, keyword: string): string {
  if (parent.const !== undefined) return JSON.stringify(parent.const);
  if (parent.enum !== undefined) return `one of ${parent.enum.join(', ')}`;
  if (keyword === 'minItems' || keyword === 'maxItems') return 'another number of entries';
  if (keyword === 'minLength' || keyword === 'minProperties') return 'something';
  return [parent.type ?? []]
    .flat()
    .map((one) => kinds.get(one) ?? one)
    .join(' or ');
}

function show(data: unknown): string {
  if (typeof data === 'string')
    return JSON.stringify(data.length > 80 ? `${data.slice(0, 77)}...` : data);
  if (Array.isArray(data)) return data.length === 0 ? 'an empty list' : 'a list';
  if (typeof data === 'number' || typeof data === 'boolean') return String(data);
  return data === null || data === undefined || Object.keys(data).length === 0 ? 'nothing' : 'keys';
}
