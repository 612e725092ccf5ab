import { mkdirSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { findLinked } from '../../../packages/core/src/read/find-linked.js';
import { tempFolder } from '../../support/temp-folder.js';

// As of a stranger's drawing: it lies in `own`, and what it is not to read beside that.
function strangersFolder(): { readonly own: string; readonly outside: string } {
  const root = realpathSync(tempFolder());
  const [own, outside] = [join(root, 'own'), join(root, 'own and more')];
  for (const folder of [own, outside, join(own, 'walls')]) mkdirSync(folder);
  writeFileSync(join(own, 'walls', 'wall.png'), 'wall');
  writeFileSync(join(outside, 'secret.png'), 'secret');
  return { own, outside };
}

async function follow(own: string, href: string): Promise<string> {
  const found = await (await findLinked(own, undefined)).follow(href);
  return found.kind === 'found' ? relative(own, found.path) : found.why;
}

const wall = join('walls', 'wall.png');
const onUnix = test.skipIf(process.platform === 'win32');

onUnix('links of the file system are followed to their end, and none leads out', async () => {
  const { own, outside } = strangersFolder();
  symlinkSync(join(outside, 'secret.png'), join(own, 'file.png'));
  symlinkSync(outside, join(own, 'folder'));
  symlinkSync('folder', join(own, 'chain'));
  symlinkSync('..', join(own, 'up'));
  symlinkSync('round.png', join(own, 'round.png'));
  symlinkSync(join('walls', 'wall.png'), join(own, 'near.png'));
  const out = 'lies outside the folder of the drawing';
  for (const href of ['file.png', 'folder/secret.png', 'chain/secret.png'])
    expect(await follow(own, href), href).toBe(out);
  expect(await follow(own, 'up/own and more/secret.png')).toBe(out);
  expect(await follow(own, 'round.png')).toBe('does not exist');
  expect(await follow(own, 'near.png')).toBe(wall);
  expect(await follow(own, 'up/own/walls/wall.png')).toBe(wall);
});

// The folder's own name begins that of the one beside it.
test('what lies beside the folder is outside, however the way is written', async () => {
  const { own, outside } = strangersFolder();
  const out = 'lies outside the folder of the drawing';
  for (const href of [
    '../own%20and%20more/secret.png',
    'walls/../../own and more/secret.png',
    './/..//own and more/secret.png',
    join(outside, 'secret.png'),
    pathToFileURL(join(outside, 'secret.png')).href,
  ])
    expect(await follow(own, href), href).toBe(out);
});

// RFC 8089: `file:` with no host, an empty one and `localhost` name this machine, schemes are of any case.
onUnix('addresses of files name this machine alone', async () => {
  const { own } = strangersFolder();
  const path = `${own}/walls/wall.png`;
  for (const start of ['file://', 'file://localhost', 'file:', 'FILE://', 'File://LOCALHOST'])
    expect(await follow(own, start + path), start).toBe(wall);
  for (const start of ['file://quay', 'FILE://quay.example:80', 'file://127.0.0.1'])
    expect(await follow(own, start + path), start).toBe('lies on another machine');
  expect(await follow(own, '\\\\quay\\walls\\wall.jpg')).toBe('lies on another machine');
  for (const start of ['HTTP://127.0.0.1:9', '//127.0.0.1:9', 'ftp://quay', 'smb://quay'])
    expect(await follow(own, start + path), start).toBe('is an address, and nothing is fetched');
});

// What was drawn on another system: a drive's letter is of no folder here, and a name alone is looked for.
onUnix('a drive is not there, and its file is looked for by name beside the drawing', async () => {
  const { own } = strangersFolder();
  for (const way of ['C:\\Users\\ann\\gone.png', 'c:/gone.png', 'file:///C:/gone.png'])
    expect(await follow(own, way), way).toBe('does not exist');
  writeFileSync(join(own, 'shed.png'), 'shed');
  for (const way of ['C:\\Users\\ann\\Shed.png', 'd:/SHED.PNG', 'file:///C:/walls/shed.png'])
    expect(await follow(own, way), way).toBe('shed.png');
});

onUnix('letters of another case name a file only where no other is meant as well', async () => {
  const { own } = strangersFolder();
  writeFileSync(join(own, 'shed.png'), 'shed');
  expect(await follow(own, 'Walls/SHED.png')).toBe('shed.png');
  writeFileSync(join(own, 'Shed.PNG'), 'another');
  expect(await follow(own, 'SHED.Png')).toBe('does not exist');
});

// Unicode Standard Annex 15: é is one letter (NFC) or e and an accent (NFD), which some file systems make of it.
test('an accent in one letter or two names the same picture', async () => {
  const { own } = strangersFolder();
  const [whole, parted] = ['caf\u00E9.png', 'gare\u0301.png'];
  for (const name of [whole, parted]) writeFileSync(join(own, name), name);
  for (const name of [whole, parted]) {
    for (const form of ['NFC', 'NFD'] as const) {
      const found = await follow(own, encodeURIComponent(name.normalize(form)));
      expect(found.normalize('NFC')).toBe(name.normalize('NFC'));
    }
  }
});
