import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkOutput } from '@gaugerod/core';
import { expect, test } from 'vitest';
import {
  writeAtomically,
  writeTogether,
} from '../../../packages/core/src/write/write-atomically.js';
import { tempFolder } from '../../support/temp-folder.js';

async function write(path: string, text: string): Promise<void> {
  async function* pieces(): AsyncGenerator<Uint8Array> {
    yield await Promise.resolve(Buffer.from(text));
  }
  await writeAtomically(path, await checkOutput(path), pieces());
}

const names = ['first.png', 'second.png', 'third.png', 'fourth.png'] as const;

test('where one file cannot take its name, those that had theirs give them back', async () => {
  const folder = tempFolder();
  const [first, second, third, fourth] = names.map((name) => join(folder, name));
  for (const path of [first, third, fourth]) writeFileSync(path ?? '', 'older');
  const written = writeTogether(async () => {
    for (const path of [first, second, third, fourth]) await write(path ?? '', 'newer');
    // Somebody's folder takes the place of the third, once all are written and none has its name.
    rmSync(third ?? '');
    mkdirSync(third ?? '');
  });
  await expect(written).rejects.toThrow(
    /^\S*third\.png (is a folder|cannot be written|was in use)/,
  );
  // The first is what it was, the second, which was not there, is not; the fourth had not come to its turn.
  expect(readdirSync(folder).sort()).toEqual(['first.png', 'fourth.png', 'third.png']);
  for (const path of [first, fourth]) expect(readFileSync(path ?? '', 'utf8')).toBe('older');
});

test('of older files nothing is left beside the new ones', async () => {
  const folder = tempFolder();
  const paths = names.map((name) => join(folder, name));
  for (const path of paths.slice(1)) writeFileSync(path, 'older');
  await writeTogether(async () => {
    for (const path of paths) await write(path, 'newer');
  });
  expect(readdirSync(folder).sort()).toEqual([...names].sort());
  for (const path of paths) expect(readFileSync(path, 'utf8')).toBe('newer');
});

test('what belongs to more takes its names with that, or not at all', async () => {
  const folder = tempFolder();
  const [drawing = '', whole = ''] = names.map((name) => join(folder, name));
  writeFileSync(drawing, 'older');
  const written = writeTogether(async () => {
    await writeTogether(() => write(drawing, 'newer'));
    await write(whole, 'newer');
    throw new RangeError('a layer that cannot be drawn');
  });
  await expect(written).rejects.toThrow('a layer that cannot be drawn');
  expect(readdirSync(folder)).toEqual(['first.png']);
  expect(readFileSync(drawing, 'utf8')).toBe('older');
});
