import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { buildJob, sheetParts, slimDrawing, TextureError } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { transform, values } from '../fuzz/src/readers/attributes.js';
import { lengths } from '../fuzz/src/readers/lengths.js';
import { pathData } from '../fuzz/src/readers/path-data.js';
import { points } from '../fuzz/src/readers/points.js';
import { scales } from '../fuzz/src/readers/scales.js';
import { tryCase } from '../fuzz/src/try-case.js';
import { pngChunk, pngFile } from '../support/picture-files.js';
import { runHere } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const teller = 'exiftool';

// The Big List of Naughty Strings: what people type that programs stumble over.
const require = createRequire(import.meta.url);
const text = readFileSync(require.resolve('big-list-of-naughty-strings/blns.json'), 'utf8');
const naughty = JSON.parse(text) as readonly string[];

// A file's name has no slash and at most 255 bytes, its ending among them.
const plain = naughty.map((string) => string.replace(/[/\0]/g, '_'));
// Some file systems take for one name what differs in case, or in how its accents are put together.
const folded = new Map(plain.map((name) => [name.normalize('NFC').toLowerCase(), name]));
const names = [...folded.values()].filter((name) => name !== '' && Buffer.byteLength(name) <= 240);

const svg = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">${inner}</svg>`;
const rect = svg('<rect width="9" height="9" fill="#b5432e"/>');

// 200 dots an inch, 7874 to the metre, as PNG says it.
const density = Buffer.from('00001ec200001ec201', 'hex');
const picture = pngFile({ width: 40, height: 40, chunks: [pngChunk('pHYs', density)] });

describe(`${naughty.length} naughty strings`, () => {
  test('are read as values, or refused in one line', async () => {
    for (const reader of [lengths, scales, points, transform, values, pathData]) {
      for (const string of naughty) {
        expect(await tryCase(reader, Buffer.from(string)), `${reader.name}: ${string}`).toBeNull();
      }
    }
  });

  test(`name drawings: all ${names.length} that a file can be called are read and written by it`, async () => {
    const folder = tempFolder();
    for (const name of names) {
      const [from, to] = [`${name}.svg`, `${name}.slim.svg`];
      writeFileSync(join(folder, from), rect);
      // Where options end, as for any command, names may begin with a stroke.
      const { exit, stdout, stderr } = await runHere(['slim', '-o', to, '--', from], folder);
      expect([exit, stderr], name).toEqual([0, '']);
      expect(readFileSync(join(folder, to), 'utf8')).toContain('<svg');
      // Nothing that draws on a terminal, or turns the text around.
      expect(stdout, name).not.toMatch(/[\0-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]/);
    }
    expect(readdirSync(folder)).toHaveLength(2 * names.length);
  });

  test('name pictures: a drawing that links to each of them finds them all', async () => {
    const folder = tempFolder();
    const images = names.map((name) => {
      writeFileSync(join(folder, `${name}.png`), picture);
      return `<image width="2" height="2" href="${encodeURIComponent(name)}.png"/>`;
    });
    writeFileSync(join(folder, 'front.svg'), svg(images.join('\n')));
    const output = join(folder, 'out.svg');
    const slimmed = await slimDrawing(join(folder, 'front.svg'), { output, embed: true });
    expect(slimmed.ok && slimmed.warnings).toEqual([]);
    const written = readFileSync(output, 'utf8');
    expect(written.match(/data:image\/png;base64,/g)).toHaveLength(1);
    expect(written.match(/<use|<image/g)?.length).toBeGreaterThanOrEqual(names.length);
  });

  test.skipIf(spawnSync(teller, ['-ver']).error !== undefined)(
    'name pages: what a page is called reads as its file does',
    async () => {
      const folder = tempFolder();
      const part = join(folder, 'part.png');
      writeFileSync(part, picture);
      // What PDF escapes or writes as UTF-16, of which exiftool reads what has no surrogates.
      const odd = names.filter(
        (name) => /[()\\]|[^\0-\xff]/.test(name) && !/[\ud800-\udfff\ufeff]/.test(name),
      );
      const some = odd.filter((_, at) => at % 3 === 0);
      for (const name of some) {
        const { ok } = await sheetParts([part], { output: join(folder, `${name}.pdf`) });
        expect(ok, name).toBe(true);
      }
      // PDF 32000-1, 14.3.3: an info dictionary's Title; exiftool reads it.
      const { stdout } = spawnSync(teller, ['-json', '-Title', '-ext', 'pdf', folder], {
        ...{ encoding: 'utf8', maxBuffer: 2 ** 26 },
      });
      const told = JSON.parse(stdout) as readonly { SourceFile: string; Title?: string | number }[];
      expect(told).toHaveLength(some.length);
      const other = told.filter(
        ({ SourceFile, Title }) => !SourceFile.endsWith(`/${Title ?? ''}.pdf`),
      );
      expect(other).toEqual([]);
    },
  );

  test('name parts of a job: every sixth is planned, or refused in one line, and nothing is written', async () => {
    const folder = tempFolder();
    const path = join(folder, 'works.yaml');
    const relief = { section: 'UB 533x210x92', length: '5m' };
    let planned = 0;
    for (const name of naughty.filter((_, at) => at % 6 === 0)) {
      writeFileSync(
        path,
        JSON.stringify({ gaugerod: 1, scale: 'N-UK', parts: { [name]: { relief } } }),
      );
      try {
        await buildJob(path, { dryRun: true });
        planned++;
      } catch (error) {
        expect(error, name).toBeInstanceOf(TextureError);
        const { message } = error as TextureError;
        expect(message, name).toMatch(/works\.yaml:\d+:\d+/);
        expect(message, name).not.toMatch(/[\0-\x1f\x7f]/);
      }
    }
    expect(planned).toBeGreaterThan(10);
    expect(readdirSync(folder)).toEqual(['works.yaml']);
  });
});
