import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { readPhoto } from '@gaugerod/core';
import sharp, { type Sharp } from 'sharp';
import { expect, test } from 'vitest';
import { decodeApart, toHead } from '../../../packages/core/src/read/decode-apart.js';
import {
  DecodeFault,
  type DecodedSamples,
  decodeSamples,
} from '../../../packages/core/src/read/decode-samples.js';
import { identifyFormat } from '../../../packages/core/src/read/identify-format.js';
import { readHeader } from '../../../packages/core/src/read/read-header.js';
import { pngFile } from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

const limits = { pixels: 100e6, side: 1e5, seconds: 60, longest: 1e6 };
const child = fileURLToPath(
  new URL('../../../packages/core/dist/read/decode-child.js', import.meta.url),
);

// Every byte another, so that rows that are out of place are seen.
function picture(): Sharp {
  const raw = Uint8Array.from({ length: 3 * 60 * 40 }, (_, i) => (i * 7919) >>> 3);
  return sharp(raw, { raw: { width: 60, height: 40, channels: 3 } });
}

const files: readonly (readonly [string, () => Promise<Buffer>])[] = [
  ['AVIF', () => picture().avif({ effort: 0 }).toBuffer()],
  ['GIF', () => picture().gif().toBuffer()],
  ['a TIFF that holds a JPEG', () => picture().tiff({ compression: 'jpeg' }).toBuffer()],
  ['a PNG of 16 bits', () => picture().toColourspace('rgb16').png().toBuffer()],
  [
    'a JPEG on its side, with a profile',
    () => picture().withIccProfile('p3').withMetadata({ orientation: 6 }).jpeg().toBuffer(),
  ],
];

test.each(files)('%s has the same pixels, decoded in a process of its own', async (_, make) => {
  const bytes = await make();
  const told = { ...limits, longest: bytes.length % 2 === 0 ? 1e6 : 16 };
  const apart: DecodedSamples = await decodeApart(bytes, 2400, told);
  expect(apart).toEqual(await decodeSamples(bytes, told));
});

const headerOf = (bytes: Buffer): ReturnType<typeof readHeader> =>
  readHeader('it', { format: identifyFormat('it', bytes), bytes }, limits);

// Of large ones, the sizes in the head alone are changed: nothing else of them is looked at.
test('what is decoded there is what cannot be stopped here, and is not soon done', async () => {
  const large = Buffer.from(await picture().jpeg({ progressive: true }).toBuffer());
  const frame = large.indexOf(Buffer.of(0xff, 0xc2));
  large.writeUInt16BE(9000, frame + 5);
  large.writeUInt16BE(9000, frame + 7);
  const arithmetic = Buffer.from(await picture().jpeg().toBuffer());
  arithmetic[arithmetic.indexOf(Buffer.of(0xff, 0xc0)) + 1] = 0xc9;
  const interlaced = Buffer.from(await picture().png({ progressive: true }).toBuffer());
  interlaced.writeUInt32BE(9000, 16);
  interlaced.writeUInt32BE(9000, 20);
  const cases: readonly (readonly [Buffer | Promise<Buffer>, boolean])[] = [
    [picture().jpeg().toBuffer(), true],
    [picture().jpeg({ progressive: true }).toBuffer(), true],
    [large, false],
    [arithmetic, false],
    [picture().png().toBuffer(), true],
    [picture().png({ progressive: true }).toBuffer(), true],
    [interlaced, false],
    [picture().webp().toBuffer(), true],
    [picture().gif().toBuffer(), false],
    [picture().avif({ effort: 0 }).toBuffer(), false],
    [picture().tiff({ compression: 'deflate' }).toBuffer(), true],
    [picture().tiff({ compression: 'none' }).toBuffer(), true],
    [picture().tiff({ compression: 'jpeg' }).toBuffer(), false],
    [picture().tiff({ compression: 'deflate', tile: true }).toBuffer(), false],
  ];
  for (const [file, isBounded] of cases) {
    const bytes = await file;
    expect([bytes.toString('latin1', 0, 12), headerOf(bytes).isBounded]).toEqual([
      expect.any(String),
      isBounded,
    ]);
  }
});

test('a decoder that takes too long is ended, and the line says how to wait longer', async () => {
  const bytes = await picture()
    .resize(5000, 5000, { fit: 'fill' })
    .threshold()
    .gif({ effort: 1 })
    .toBuffer();
  const path = join(tempFolder(), 'wall.gif');
  writeFileSync(path, bytes);
  // Of 25 million pixels, some 0.2 s.
  await expect(readPhoto(path, { mostSeconds: 0.1 })).rejects.toMatchObject({
    code: 'too-large',
    limit: 'seconds',
    message: `${path} takes more than 0.1 s to decode: --most-seconds 1 waits longer`,
  });
  await expect(readPhoto(path, { mostSeconds: 60 })).resolves.toMatchObject({ width: 5000 });
});

// Of 81 million pixels, some 0.4 s: a decoder in this process would be stopped after a whole second.
test('a part of a second is kept to, of a picture that would be decoded in this process too', async () => {
  const path = join(tempFolder(), 'wall.png');
  const even = { width: 9000, height: 9000, channels: 3, background: '#888' } as const;
  await sharp({ create: even }).png({ compressionLevel: 1 }).toFile(path);
  await expect(readPhoto(path, { mostSeconds: 0.1 })).rejects.toMatchObject({ limit: 'seconds' });
  await expect(readPhoto(path, { mostSeconds: 60 })).resolves.toMatchObject({ width: 9000 });
});

async function kindOf(work: Promise<unknown>): Promise<string> {
  const error: unknown = await work.catch((cause: unknown) => cause);
  return error instanceof DecodeFault ? error.kind : String(error);
}

// A hundred million pixels of three bytes, of which the file holds one bit each; one pixel allows 256 MB.
test('a decoder that takes far more memory than its header lets expect is ended', async () => {
  const side = 10_000;
  const pixels = new Uint8Array((side * side) / 8);
  const bytes = pngFile({ width: side, height: side, depth: 1, colour: 0, pixels });
  expect(await kindOf(decodeApart(bytes, 1, limits))).toBe('large');
  expect(await kindOf(decodeApart(Buffer.from('GIF89a, no more'), 1, limits))).toBe('damaged');
});

test('where the system starts no process, the line says so', async () => {
  const bytes = await picture().gif().toBuffer();
  const path = join(tempFolder(), 'wall.gif');
  writeFileSync(path, bytes);
  const { execPath } = process;
  process.execPath = join(tempFolder(), 'none');
  try {
    await expect(readPhoto(path)).rejects.toMatchObject({
      code: 'unreadable',
      message: expect.stringMatching(/: the system starts no process to do it in \(/) as string,
    });
  } finally {
    process.execPath = execPath;
  }
});

// Its input is this process's end: what is not told to end does.
test.skipIf(process.platform === 'win32')('nobody is left when whoever asked is gone', async () => {
  const file = await picture().gif().toBuffer();
  const one = spawn(process.execPath, [child], { stdio: ['pipe', 'ignore', 'ignore'] });
  const ended = new Promise((resolve) =>
    one.on('exit', (_, signal) => {
      resolve(signal);
    }),
  );
  one.stdin.write(toHead({ bytes: file.length, limits, memory: 1e9 }));
  await wait(50);
  one.stdin.destroy();
  expect(await ended).toBe('SIGKILL');
});

// Linux tells of every process whose child it is.
test.skipIf(process.platform !== 'linux')(
  'no process stays once a picture is decoded',
  async () => {
    const task = `/proc/${process.pid}/task/${process.pid}/children`;
    const before = readFileSync(task, 'utf8');
    await decodeApart(await picture().gif().toBuffer(), 2400, limits);
    await kindOf(
      decodeApart(await picture().gif().toBuffer(), 2400, { ...limits, seconds: 0.001 }),
    );
    expect(readFileSync(task, 'utf8')).toBe(before);
  },
);
