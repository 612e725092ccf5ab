import { mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { configSchema, findScale, openSettings, TextureError } from '@gaugerod/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeEach, expect, onTestFinished, test, vi } from 'vitest';
import { tempFolder } from '../../../support/temp-folder.js';

let home: string;
let folder: string;

beforeEach(() => {
  home = tempFolder();
  folder = join(home, 'models', 'dye-works');
  mkdirSync(folder, { recursive: true });
  for (const name of ['HOME', 'USERPROFILE']) vi.stubEnv(name, home);
  vi.stubEnv('XDG_CONFIG_HOME', join(home, '.config'));
  onTestFinished(() => {
    vi.unstubAllEnvs();
  });
});

function write(path: string, text: string): void {
  mkdirSync(join(home, path, '..'), { recursive: true });
  writeFileSync(join(home, path), text);
}

const near = 'models/dye-works/gaugerod.config.yaml';
const own = '.config/gaugerod/config.yaml';

async function texts(): Promise<Record<string, string>> {
  const { values } = await openSettings(folder);
  return Object.fromEntries(Object.entries(values).map(([name, { text }]) => [name, text]));
}

async function refusal(): Promise<string> {
  const error: unknown = await openSettings(folder).then(
    () => null,
    (cause: unknown) => cause,
  );
  if (!(error instanceof TextureError)) return String(error);
  return [error.code, error.message, error.hint].filter(Boolean).join(' | ');
}

test('nothing is set where there is no file', async () => {
  expect(await openSettings(folder)).toEqual({
    values: {},
    references: [],
    referenceFile: join(home, '.config/gaugerod/references.yaml'),
    // What would be read if it were there, so that who waits for changes hears of it: up to the home, and of the user.
    files: [
      join(folder, 'gaugerod.config.yaml'),
      join(home, 'models/gaugerod.config.yaml'),
      join(home, 'gaugerod.config.yaml'),
      join(home, own),
      join(home, '.config/gaugerod/references.yaml'),
    ],
  });
});

test('a nearer file that is made later is among those that are looked for', async () => {
  write('gaugerod.config.yaml', 'dpi: 300\n');
  const { files } = await openSettings(folder);
  expect(files).toContain(join(home, near));
  write(near, 'dpi: 600\n');
  const { files: now } = await openSettings(folder);
  expect(now).not.toContain(join(home, 'gaugerod.config.yaml'));
});

test('the file of the folder goes before the one of the user, key by key', async () => {
  write(own, 'region: UK\ndpi: 600\npaper: A4\nprinterX: 99.4\n');
  write('models/gaugerod.config.yaml', 'dpi: 1200\npaper: Letter\n');
  write(near, 'paper: A3 landscape\nscale: N\n');
  // The nearest of the folders alone: one that holds a file stands for itself.
  expect(await texts()).toEqual({
    ...{ region: 'UK', dpi: '600', paper: 'A3 landscape', printerX: '99.4', scale: 'N' },
  });
  const { values, files } = await openSettings(folder);
  expect([values.paper?.file, values.dpi?.file]).toEqual([join(home, near), join(home, own)]);
  expect(files).toEqual([
    join(home, near),
    join(home, own),
    join(home, '.config/gaugerod/references.yaml'),
  ]);
});

test('a folder above is searched, but none above the home', async () => {
  write('gaugerod.config.yaml', 'dpi: 300\n');
  expect(await texts()).toEqual({ dpi: '300' });
  for (const name of ['HOME', 'USERPROFILE']) vi.stubEnv(name, join(home, 'models'));
  expect(await texts()).toEqual({});
});

// XDG Base Directory Specification 0.8: "If an implementation encounters a relative path in any of
// these variables it should consider the path invalid and ignore it."
test('XDG_CONFIG_HOME counts where it is absolute', async () => {
  write('elsewhere/gaugerod/config.yaml', 'dpi: 300\n');
  vi.stubEnv('XDG_CONFIG_HOME', join(home, 'elsewhere'));
  expect(await texts()).toEqual({ dpi: '300' });
  vi.stubEnv('XDG_CONFIG_HOME', 'elsewhere');
  vi.stubEnv('APPDATA', join(home, '.config'));
  const { referenceFile } = await openSettings(folder);
  const place = process.platform === 'darwin' ? 'Library/Application Support' : '.config';
  expect(referenceFile).toBe(join(home, place, 'gaugerod', 'references.yaml'));
});

test('paths lie beside the file that names them', async () => {
  write(own, 'printing: { printer: inks/my.printer.json }\n');
  write(near, 'references: ../bricks.yaml\n');
  write('models/bricks.yaml', 'references: {}\n');
  const { values, referenceFile } = await openSettings(folder);
  expect(values.printer?.text).toBe(join(home, '.config/gaugerod/inks/my.printer.json'));
  expect(referenceFile).toBe(join(home, 'models/bricks.yaml'));
});

test('whoever tells of a dot gain leaves the profile of the other file out, and the other way about', async () => {
  write(own, 'printing: { printer: my.json, inkLimit: 240% }\n');
  write(near, 'printing: { dotGain: 18% }\n');
  expect(await texts()).toEqual({ inkLimit: '240%', dotGain: '18%' });
  write(near, 'printing: { printer: other.json }\n');
  write(own, 'printing: { dotGain: 18% }\n');
  expect(Object.keys(await texts())).toEqual(['printer']);
});

test('a scale may lean on the region in the other file, and needs one', async () => {
  write(near, 'dpi: 600\nscale: N\n');
  expect(await refusal()).toContain('gaugerod.config.yaml:2:8: expected one of N-EU (1:160)');
  write(own, 'region: UK\n');
  expect(await texts()).toMatchObject({ scale: 'N' });
});

// British N is 1:148, American 1:160 (NMRA S-1.2).
test('a usual region gives way to the one in a name, and to the one that is told', () => {
  expect(findScale('N', { usualRegion: 'UK' }).ratio).toBe(148);
  expect(findScale('N-US', { usualRegion: 'UK' }).ratio).toBe(160);
  expect(findScale('N', { usualRegion: 'UK', region: 'US' }).ratio).toBe(160);
  expect(findScale('1:87', { usualRegion: 'UK' }).ratio).toBe(87);
  expect(findScale('OO', { usualRegion: 'US' }).ratio).toBeCloseTo(76.2, 9);
});

// Line and column are counted by hand, from 1.
test.each([
  ['papper: A4', '1:1: unknown key "papper" in a file of defaults | did you mean paper?'],
  ['paper: A44', '1:8: expected '],
  ['dpi: 600\nmargin: [5mm]', '2:9: expected a text or a number for margin'],
  ['dpi: fine', '1:6: expected '],
  ['printerX: 12', '1:11: expected '],
  ['region: Wales', '1:9: expected one of UK, EU, US, JP, FR for region'],
  ['printing: { sharpen: 5 }', '1:22: expected '],
  ['printing: { ink: 5 }', '1:13: unknown key "ink" in printing'],
  ['printing:\n  printer: a.json\n  dotGain: 18%', '3:12: expected no dot gain beside a printer'],
  ['references: [a]', '1:13: expected a text for references'],
  ['- dpi', '1:1: expected keys and what they hold'],
  ['gaugerod: 3', '1:11: is of form 3, and 1 is the newest known here'],
  ['dpi: 600\ndpi: 300', '2:1: holds one key twice'],
  ['dpi: 600\n---\ndpi: 300', 'holds several documents: a file of defaults is one'],
])('%j is told of by line and column', async (text, told) => {
  write(near, text);
  const said = await refusal();
  expect(said).toMatch(/^bad-config \| .*gaugerod\.config\.yaml:\d+:\d+: /);
  expect(said).toContain(told);
});

test('a file of references that is named may still be to come', async () => {
  write(near, 'references: ours.yaml\n');
  const { references, referenceFile } = await openSettings(folder);
  expect([references, referenceFile]).toEqual([[], join(folder, 'ours.yaml')]);
});

test('an empty file sets nothing', async () => {
  write(near, '# dpi: 600\n');
  write(own, 'printing:\n');
  expect(await texts()).toEqual({});
});

// A folder comes with its file of defaults from whoever hands it over.
test('limits are set by the user’s own file, and not by one that lies in a folder', async () => {
  write(own, 'mostPixels: 200M\n');
  expect(await texts()).toEqual({ mostPixels: '200M' });
  for (const place of [near, 'models/gaugerod.config.yaml']) {
    write(place, 'dpi: 300\nmostSeconds: 60\n');
    expect(await refusal()).toBe(
      `bad-config | ${join(home, place)}:2:1: expected limits in config.yaml of your own folder alone, got mostSeconds | put it there, or give --most-seconds`,
    );
    rmSync(join(home, place));
  }
});

test('a file that cannot be read is never passed over', async () => {
  const path = join(home, near);
  mkdirSync(path);
  expect(await refusal()).toContain('is a folder, not a file');
  for (const [text, told] of [
    [Uint8Array.of(0xff, 0xfe, 0x41, 0), 'is no text in UTF-8'],
    [`# ${'x'.repeat(3e6)}\n`, 'more than 2 MB: --most-bytes 3.1M reads it'],
    ['a: &a [*a]', 'bad-config'],
  ] as const) {
    writeFileSync(join(folder, '..', 'gaugerod.config.yaml'), text);
    const error: unknown = await openSettings(join(folder, '..')).catch((cause: unknown) => cause);
    const { code = '', message = '' } = error as Partial<TextureError>;
    expect(`${code} ${message}`).toContain(told);
  }
  mkdirSync(join(home, '.config', 'gaugerod'), { recursive: true });
  symlinkSync('config.yaml', join(home, own));
  const above = await openSettings(home).catch((cause: unknown) => cause);
  expect((above as Error).message).toContain('leads round in a circle');
});

test('the published schema is the one that files are held against', () => {
  const url = new URL('../../../../packages/core/schema/config.schema.json', import.meta.url);
  const published = JSON.parse(readFileSync(url, 'utf8')) as object;
  expect(published).toEqual(JSON.parse(JSON.stringify(configSchema)));
  const check = new Ajv2020({ allowUnionTypes: true }).compile(published);
  expect(check({ region: 'UK', dpi: 600, printing: { inkLimit: '240%' } })).toBe(true);
  expect(check({ scales: 'N' })).toBe(false);
});
