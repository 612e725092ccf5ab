import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { sheetParts, slimDrawing } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { dress, dressFolder, svg } from '../../support/dress-drawings.js';
import { tempFolder } from '../../support/temp-folder.js';

const text = svg('<rect id="wall" x="5" y="5" width="20" height="12" fill="#b5432e"/>');

test('a compressed drawing is dressed as the plain one is, and laid on a sheet', async () => {
  const folder = dressFolder(text);
  writeFileSync(join(folder, 'front.svgz'), gzipSync(text));
  const plain = await dress(folder, ['#wall'], { to: 'plain.svg' });
  const packed = await dress(folder, ['#wall'], { from: 'front.svgz', to: 'packed.svg' });
  expect(packed.text).toBe(plain.text);
  const output = join(folder, 'page.pdf');
  expect(await sheetParts([join(folder, 'front.svgz')], { output })).toMatchObject({ ok: true });
});

test('what is written of a compressed drawing is plain, and larger: that is said, and sizes are those on disk', async () => {
  const folder = dressFolder(text);
  const path = join(folder, 'front.svgz');
  const long = text.replace('<rect', `${'<g/>'.repeat(2000)}<rect`);
  const packed = gzipSync(long);
  writeFileSync(path, packed);
  const output = join(folder, 'small.svg');
  const slimmed = await slimDrawing(path, { output });
  if (!slimmed.ok) throw new Error('refused');
  const { bytesBefore, bytesAfter, verdict } = slimmed.value;
  expect([bytesBefore, bytesAfter]).toEqual([packed.length, statSync(output).size]);
  expect(bytesAfter).toBe(long.length);
  expect(verdict).toContain('unpacked');
  expect(slimmed.warnings[0]).toMatchObject({
    code: 'unpacked',
    message: expect.stringMatching(/plain drawing, and larger/) as string,
  });
  const dressed = await dress(folder, ['#wall'], { from: 'front.svgz', to: 'packed.svg' });
  expect(dressed.bytesBefore).toBe(packed.length);
  expect(dressed.messages.join()).toContain('what is written is a plain drawing');
});

test('what is written as .svgz is compressed, never larger, and says nothing of being plain', async () => {
  const folder = dressFolder(text);
  const packed = gzipSync(text, { level: 9 });
  writeFileSync(join(folder, 'front.svgz'), packed);
  const output = join(folder, 'small.svgz');
  const kept = await slimDrawing(join(folder, 'front.svgz'), { output });
  // There is nothing in it to make smaller: the file stays as it was.
  expect(readFileSync(output).equals(packed)).toBe(true);
  expect(kept.ok && kept.value.bytesAfter).toBe(packed.length);
  expect(kept.ok && kept.warnings.map(({ code }) => code)).not.toContain('unpacked');
  const plain = await slimDrawing(join(folder, 'front.svg'), { output: join(folder, 'b.svgz') });
  expect(gunzipSync(readFileSync(join(folder, 'b.svgz'))).toString()).toBe(text);
  expect(plain.ok && plain.value.bytesAfter).toBe(statSync(join(folder, 'b.svgz')).size);
  const one = await dress(folder, ['#wall'], { from: 'front.svgz', to: 'dressed.svg' });
  const two = await dress(folder, ['#wall'], { from: 'front.svgz', to: 'dressed.svgz' });
  expect(gunzipSync(readFileSync(join(folder, 'dressed.svgz'))).toString()).toBe(one.text);
  expect(two.bytesAfter).toBe(statSync(join(folder, 'dressed.svgz')).size);
});

// RFC 1952, 2.3.1: the last four bytes are the size of what was compressed, the least first.
const saying = (size: number): Buffer => {
  const bytes = gzipSync(text);
  bytes.writeUInt32LE(size, bytes.length - 4);
  return bytes;
};

test.each([
  // Cut short, its last four bytes are any.
  ['says that it is too large, and is not', saying(3e9), 'bad-drawing', /damaged/],
  [
    'is too large',
    gzipSync(Buffer.alloc(151e6, 32), { level: 1 }),
    'too-large',
    /more than 150 MB: --most-bytes 300M reads it/,
  ],
  ['holds more than it says', saying(9), 'bad-drawing', /damaged/],
  ['holds less than it says', saying(5000), 'bad-drawing', /damaged/],
  ['says that it holds nothing', saying(0), 'bad-drawing', /damaged/],
  [
    'breaks off',
    Buffer.concat([gzipSync(text).subarray(0, 60), Buffer.alloc(4)]),
    'bad-drawing',
    /damaged/,
  ],
])('one that %s is refused', async (_, bytes, code, words) => {
  const path = join(tempFolder(), 'front.svgz');
  writeFileSync(path, bytes);
  await expect(slimDrawing(path, { report: true })).rejects.toMatchObject({
    code,
    message: expect.stringMatching(words) as string,
  });
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

test.each([
  ['several members', [gzipSync(text.slice(0, 40)), gzipSync(text.slice(40))]],
  ['zeros behind it', [gzipSync(text), Buffer.alloc(512)]],
])('a compressed drawing of %s is read, as RFC 1952 allows', async (_, parts) => {
  const folder = dressFolder(text);
  writeFileSync(join(folder, 'front.svgz'), Buffer.concat(parts));
  const output = join(folder, 'small.svg');
  expect(await slimDrawing(join(folder, 'front.svgz'), { output })).toMatchObject({ ok: true });
  expect(readFileSync(output, 'utf8')).toBe(text);
});

test('a report on a compressed drawing tells of a compressed one', async () => {
  const folder = dressFolder(text);
  const packed = gzipSync(text, { level: 9 });
  writeFileSync(join(folder, 'front.svgz'), packed);
  const told = await slimDrawing(join(folder, 'front.svgz'), { report: true });
  if (!told.ok) throw new Error('refused');
  expect([told.value.bytesBefore, told.value.bytesAfter]).toEqual([packed.length, packed.length]);
  expect(told.warnings.map(({ code }) => code)).not.toContain('unpacked');
});
