import { execFile } from 'node:child_process';
import {
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import {
  addReference,
  findBrick,
  findCourse,
  type OwnReference,
  readReferences,
  realMm,
  referenceSchema,
  removeReference,
  searchCatalogue,
  TextureError,
} from '@gaugerod/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { isDryLaid } from '../../../../packages/core/src/job/weather/is-dry-laid.js';
import { markProcess } from '../../../../packages/core/src/write/process-mark.js';
import { atHome } from '../../../support/run-gaugerod.js';
import { tempFolder } from '../../../support/temp-folder.js';

const runFile = promisify(execFile);
const command = fileURLToPath(new URL('../../../../packages/cli/dist/main.js', import.meta.url));

const dyeHouse: OwnReference = {
  id: 'dye-house',
  name: 'brick of the dye house',
  kind: 'brick',
  course: realMm(76),
  tolerance: realMm(1),
  length: realMm(228),
  lengthTolerance: realMm(2),
  width: realMm(110),
  joint: realMm(9),
  source: 'measured by me over 20 courses',
};
const bare = { length: null, lengthTolerance: null, width: null, joint: null };

async function refusal(work: Promise<unknown>): Promise<string> {
  const error: unknown = await work.then(
    () => null,
    (cause: unknown) => cause,
  );
  if (!(error instanceof TextureError)) return String(error);
  return [error.code, error.message, error.hint].filter(Boolean).join(' | ');
}

test('what was added is read again, and measures like an entry of the catalogue', async () => {
  const path = join(tempFolder(), 'references.yaml');
  const slate: OwnReference = {
    ...{ ...dyeHouse, ...bare, id: 'shed-slate', name: 'shed-slate', kind: 'roofing' },
    length: realMm(255),
  };
  expect((await addReference(path, dyeHouse)).ok).toBe(true);
  expect((await addReference(path, slate)).ok).toBe(true);
  const { references } = await readReferences(path);
  expect(references).toEqual([dyeHouse, slate]);
  // Anywhere in a band of 1 mm either way alike is 1/sqrt(3) mm (JCGM 100:2008, 4.3.7).
  const course = findCourse('Dye House', 'course', references);
  expect([course.id, course.size]).toEqual(['dye-house', 76]);
  expect(course.uncertainty * 76 * Math.sqrt(3)).toBeCloseTo(1, 9);
  expect(course.source).toContain('measured by me over 20 courses');
  // A brick with its joint, by hand: 228 + 9 and 110 + 9; a slate has none.
  expect(course.brick).toEqual({ stretcher: 237, header: 119, joint: 9 });
  expect(findCourse('shed-slate', 'course', references).brick?.stretcher).toBe(255);
  expect(isDryLaid(findCourse('shed-slate', 'course', references))).toBe(true);
  expect(isDryLaid(course)).toBe(false);
  const brick = findBrick('dye-house', 'brick', references);
  expect(brick.size).toBe(228);
  expect(brick.uncertainty * 228 * Math.sqrt(3)).toBeCloseTo(2, 9);
});

test('without them the catalogue is what it was', () => {
  expect(() => findCourse('dye-house')).toThrow(/^expected the id of a course/);
  expect(() => findCourse('dye-hosue', '--course', [dyeHouse])).toThrow('(dye-house?)');
  expect(searchCatalogue('own')).toEqual([]);
  expect(searchCatalogue('own', [dyeHouse]).map(({ id, own }) => [id, own])).toEqual([
    ['dye-house', true],
  ]);
  expect(searchCatalogue('brick', [dyeHouse])[0]?.id).toBe('dye-house');
  expect(searchCatalogue().some(({ own }) => own)).toBe(false);
});

test('a length whose tolerance nobody tells has that of BS EN 771-1', () => {
  const own = { ...dyeHouse, lengthTolerance: null };
  const { uncertainty, source } = findBrick('dye-house', 'brick', [own]);
  // T1, from memory: 0.40 times the root of the size, here 6.04 mm.
  expect(uncertainty * 228 * Math.sqrt(3)).toBeCloseTo(0.4 * Math.sqrt(228), 9);
  expect(source).toContain('BS EN 771-1');
});

test('comments and what else stands in the file stay; removed, it is gone', async () => {
  const folder = tempFolder();
  const path = join(folder, 'ours.yaml');
  writeFileSync(
    path,
    '# Kept by hand.\nreferences:\n  mill: # the old one\n    course: 3in\n    tolerance: 2mm\n    source: a guide\n',
  );
  await addReference(path, dyeHouse);
  expect(await addReference(path, dyeHouse)).toMatchObject({ ok: false, code: 'reference-there' });
  const text = readFileSync(path, 'utf8');
  for (const kept of ['# Kept by hand.', '# the old one', 'course: 3in', 'dye-house:']) {
    expect(text).toContain(kept);
  }
  expect(await removeReference(path, 'dye-huose')).toMatchObject({
    ok: false,
    code: 'no-entry',
    hint: 'did you mean dye-house?',
  });
  expect((await removeReference(path, 'dye-house')).ok).toBe(true);
  expect(readFileSync(path, 'utf8')).toContain('# the old one');
  const { references } = await readReferences(path);
  // 1 in = 25.4 mm exactly (International Yard and Pound Agreement, 1959).
  expect(references.map(({ id, name, course }) => [id, name, course])).toEqual([
    ['mill', 'mill', 76.2],
  ]);
  expect(readdirSync(folder)).toEqual(['ours.yaml']);
});

// Aliases: YAML 1.2.2, 7.1; whoever is taken out takes along what it anchors.
test.each([
  'mill: &m { course: 76mm, tolerance: 1mm, source: me }\n  mill-two: *m',
  'first: &m { course: 70mm, tolerance: 1mm, source: me }\n  mill: &m { course: 76mm, tolerance: 1mm, source: me }\n  mill-two: *m',
])('what others lean on is not taken out: %s', async (entries) => {
  const path = join(tempFolder(), 'ours.yaml');
  const text = `references:\n  ${entries}\n`;
  writeFileSync(path, text);
  const told = await refusal(removeReference(path, 'mill'));
  expect(told).toContain('bad-references | others in ');
  expect(told).toContain('lean on mill | write them out first');
  expect(readFileSync(path, 'utf8')).toBe(text);
  expect((await removeReference(path, 'mill-two')).ok).toBe(true);
  expect((await removeReference(path, 'mill')).ok).toBe(true);
});

// A lock as a process leaves it that was killed: no process has so high a number (Linux: 2^22 at most, proc(5)).
const dead = markProcess().replace(/\d+$/, '999999999');

test('of several that are added at once none is lost, and nothing is left beside them', async () => {
  const folder = tempFolder();
  const path = join(folder, 'ours.yaml');
  writeFileSync(join(folder, '.gaugerod.lock'), dead);
  const ids = Array.from({ length: 8 }, (_, i) => `brick-${i}`);
  const kept = await Promise.all(ids.map((id) => addReference(path, { ...dyeHouse, id })));
  expect(kept.every(({ ok }) => ok)).toBe(true);
  const { references } = await readReferences(path);
  expect(references.map(({ id }) => id).sort()).toEqual(ids);
  // Of two that are alike one is told that it came too late.
  const twice = await Promise.all([1, 2].map(() => addReference(path, dyeHouse)));
  expect(twice.map(({ ok }) => ok).sort()).toEqual([false, true]);
  expect(readdirSync(folder)).toEqual(['ours.yaml']);
});

test('a lock whose maker was killed before it wrote its number holds nobody up for ever', async () => {
  const folder = tempFolder();
  const path = join(folder, 'ours.yaml');
  const lock = join(folder, '.gaugerod.lock');
  writeFileSync(lock, '');
  const then = Date.now() / 1000 - 3600;
  utimesSync(lock, then, then);
  expect((await addReference(path, dyeHouse)).ok).toBe(true);
  expect(readdirSync(folder)).toEqual(['ours.yaml']);
  // One only just made is somebody's, who is about to write it.
  writeFileSync(lock, '');
  const waiting = addReference(path, { ...dyeHouse, id: 'mill' });
  await wait(300);
  expect(readdirSync(folder).sort()).toEqual(['.gaugerod.lock', 'ours.yaml']);
  rmSync(lock);
  expect((await waiting).ok).toBe(true);
});

test('of several processes that add at once none is lost, nor where one was killed before', async () => {
  const folder = tempFolder();
  const path = join(folder, 'ours.yaml');
  writeFileSync(join(folder, '.gaugerod.lock'), dead);
  const ids = ['brick-a', 'brick-b', 'brick-c'];
  const wish = ['--course', '76mm', '--tolerance', '1mm', '--source', 'measured by me'];
  const { PATH } = process.env;
  const env = { ...(PATH !== undefined && { PATH }), ...atHome(folder) };
  const add = (id: string): Promise<unknown> =>
    runFile(process.execPath, [command, 'reference', '--add', id, ...wish, '--file', path], {
      env,
    });
  await Promise.all(ids.map(add));
  const { references } = await readReferences(path);
  expect(references.map(({ id }) => id).sort()).toEqual(ids);
  expect(readdirSync(folder)).toEqual(['ours.yaml']);
});

const good = `gaugerod: 1
references:
  dye-house:
    course: 76mm
    tolerance: 1mm
    length: 228mm
    source: measured by me
`;

// Line and column are counted by hand, from 1.
test.each([
  ['course:', 'coarse:', '4:5: unknown key "coarse" in references.dye-house | did you mean course'],
  ['    source: measured by me\n', '', '3:3: references.dye-house needs source'],
  ['76mm', '76furlong', '4:13: expected a length such as 120mm, 4.7in or 8ft6in for course'],
  ['76mm', '[76mm]', '4:13: expected a text or a number for references.dye-house.course'],
  ['1mm', '80mm', '5:16: expected less than the course for tolerance, got "80mm"'],
  ['228mm', '228mm\n    lengthTolerance: 300mm', '7:22: expected less than the length'],
  ['length: 228mm', 'joint: 90mm', '6:12: expected less than the course for joint, got "90mm"'],
  ['228mm', '228mm\n    width: 110mm', '7:12: expected a joint beside it for width, got "110mm"'],
  ['length: 228mm', 'width: 110mm', '6:12: expected a length beside it for width, got "110mm"'],
  ['measured by me', '" "', '7:13: expected 1 to 1000 characters for source'],
  ['dye-house', 'uk-metric', "3:3: expected an id that is not the catalogue's"],
  ['dye-house', 'uk-imperial-southern', "3:3: expected an id that is not the catalogue's"],
  ['dye-house', 'n-uk', "3:3: expected an id that is not the catalogue's"],
  ['dye-house', 'own', "3:3: expected an id that is not the catalogue's"],
  ['dye-house', 'Dye House', '3:3: "Dye House" cannot name a reference: expected small letters'],
  ['dye-house', '75mm', '3:3: "75mm" cannot name a reference'],
  ['gaugerod: 1', 'gaugerod: 2', '1:11: is of form 2, and 1 is the newest known here'],
  ['references:', 'refernces:', '2:1: unknown key "refernces" in a file of references | did you'],
  ['course: 76mm', 'course: 76mm\n    course: 77mm', '5:5: holds one key twice'],
])('%s as %s is told of by line and column', async (from, to, told) => {
  const path = join(tempFolder(), 'references.yaml');
  writeFileSync(path, good);
  expect((await readReferences(path)).references).toHaveLength(1);
  writeFileSync(path, good.replace(from, to));
  const said = await refusal(readReferences(path));
  expect(said).toMatch(/^bad-references \| .*references\.yaml:\d+:\d+: /);
  expect(said).toContain(told);
});

test('a file that is none is refused, and never written over', async () => {
  const folder = tempFolder();
  const at = (name: string, bytes: string | Uint8Array): string => {
    const path = join(folder, name);
    writeFileSync(path, bytes);
    return path;
  };
  const tens = Array.from(
    { length: 12 },
    (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(',')}]`,
  );
  const bomb = at('bomb.yaml', `a0: &a0 [x]\n${tens.join('\n')}\n`);
  const binary = at('binary.yaml', Uint8Array.of(0xff, 0xfe, 0x41, 0));
  const large = at('large.yaml', `# ${'x'.repeat(3e6)}\n`);
  mkdirSync(join(folder, 'folder.yaml'));
  symlinkSync('loop.yaml', join(folder, 'loop.yaml'));
  for (const [path, told] of [
    [bomb, 'aliases'],
    [binary, 'is no text in UTF-8'],
    [large, 'more than 2 MB: --most-bytes 3.1M reads it'],
    [join(folder, 'folder.yaml'), 'is a folder, not a file'],
    [join(folder, 'loop.yaml'), 'leads round in a circle'],
  ] as const) {
    expect(await refusal(readReferences(path))).toContain(told);
    expect(await refusal(addReference(path, dyeHouse))).toContain(told);
  }
  expect(readFileSync(binary)).toEqual(Buffer.from([0xff, 0xfe, 0x41, 0]));
  expect(await refusal(addReference(join(folder, 'ours.txt'), dyeHouse))).toContain(
    '.yaml or .yml',
  );
  expect(await refusal(addReference(join(folder, 'no', 'ours.yaml'), dyeHouse))).toContain(
    'the folder of',
  );
  expect(readdirSync(folder).sort()).toEqual(
    ['binary.yaml', 'bomb.yaml', 'folder.yaml', 'large.yaml', 'loop.yaml'].sort(),
  );
});

test.each([
  [{ id: 'uk-metric' }, /^expected an id that is not the catalogue's for id, got "uk-metric"$/],
  [{ id: 'Dye House' }, /^expected an id of small letters/],
  [{ tolerance: realMm(76) }, /^expected less than the course for tolerance/],
])('%j is refused before a file is looked at', async (wrong, told) => {
  const path = join(tempFolder(), 'references.yaml');
  await expect(addReference(path, { ...dyeHouse, ...wrong })).rejects.toThrow(told);
});

test('the published schema is the one that files are held against', () => {
  const url = new URL('../../../../packages/core/schema/references.schema.json', import.meta.url);
  const published = JSON.parse(readFileSync(url, 'utf8')) as object;
  expect(published).toEqual(JSON.parse(JSON.stringify(referenceSchema)));
  const check = new Ajv2020({ allowUnionTypes: true }).compile(published);
  const reference = { course: '76mm', tolerance: 1, source: 'measured by me' };
  expect(check({ references: { 'dye-house': reference } })).toBe(true);
  expect(check({ references: { 'dye-house': { ...reference, size: 1 } } })).toBe(false);
});
