import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  dressDrawing,
  findScale,
  parsePaintKey,
  parseDressRelief,
  sheetParts,
  slimDrawing,
  dpi,
} from '@gaugerod/core';
import { decodeDrawing } from '../../../../packages/core/dist/drawing/decode-drawing.js';
import { readDrawing } from '../../../../packages/core/dist/drawing/read-drawing.js';
import { drawings, drawingWords, pathWords } from '../drawing-seeds.js';
import { wholeOrNothing, workFolder } from '../in-folder.js';
import { measuredWall } from '../measured-wall.js';
import { pictureSeeds } from '../picture-seeds.js';
import { promise, type Reader } from '../reader.js';

const folder = workFolder();
const path = join(folder, 'front.svg');
async function makeSeeds(): Promise<readonly Buffer[]> {
  mkdirSync(folder, { recursive: true });
  const [png] = await pictureSeeds.png();
  writeFileSync(join(folder, 'front.png'), png);
  const wall = await measuredWall();
  writeFileSync(join(folder, 'wall.png'), wall.photo);
  writeFileSync(join(folder, 'wall.surface.json'), wall.sidecar);
  const plain = drawings.map((text) => Buffer.from(text));
  const [first = Buffer.alloc(0)] = plain;
  writeFileSync(path, first);
  await dress(join(folder, 'dressed.svg'));
  return [...plain, readFileSync(join(folder, 'dressed.svg'))];
}

let made: Promise<readonly Buffer[]> | undefined;
const seeds = (): Promise<readonly Buffer[]> => (made ??= makeSeeds());

const scale = findScale('1:148');
const wallAt = (key: string) => ({
  key: parsePaintKey(key, 'paint'),
  surface: join(folder, 'wall.png'),
});

async function dress(output: string): Promise<boolean> {
  const paint = [wallAt('#b5432e'), wallAt('.shed')];
  return (await dressDrawing(path, { output, paint, scale, dpi: dpi(100) })).ok;
}

const checkSvg = (bytes: Buffer, name: string): void => {
  if (!name.endsWith('.svg')) return;
  const { text } = decodeDrawing(bytes);
  readDrawing(text);
  promise(
    !/\bNaN\b|Infinity/.test(text.replace(/base64,[A-Za-z0-9+/=]*/g, '')),
    'no NaN is written',
  );
};

const words = [...drawingWords, ...pathWords];

// A case that holds such words itself may hand them on.
const isFair = (bytes: Buffer): boolean => !/NaN|Infinity/.test(bytes.toString('latin1'));

const drawingJob = (
  name: string,
  tried: number,
  work: (out: string) => Promise<boolean>,
): Reader => ({
  name,
  tried,
  words,
  seeds,
  read: async (bytes) => {
    writeFileSync(path, bytes);
    await wholeOrNothing(folder, work, (file, written) => {
      if (isFair(bytes)) checkSvg(file, written);
    });
    promise(readFileSync(path).equals(bytes), 'the drawing stays as it is');
  },
});

/** A drawing through whole jobs. */
export const drawingJobs: readonly Reader[] = [
  drawingJob(
    'slim',
    30,
    async (out) => (await slimDrawing(path, { output: join(out, 'small.svg') })).ok,
  ),
  drawingJob('slim-link', 15, async (out) => {
    const link = join(out, 'pictures');
    return (await slimDrawing(path, { output: join(out, 'small.svg'), link, dpi: dpi(72) })).ok;
  }),
  drawingJob('dress', 20, async (out) => dress(join(out, 'front.svg'))),
  drawingJob('dress-relief', 10, async (out) => {
    const relief = [
      { key: parsePaintKey('#post', 'relief'), relief: parseDressRelief('plate', 'relief') },
    ];
    const options = {
      output: join(out, 'front.svg'),
      paint: [wallAt('#b5432e')],
      scale,
      dpi: dpi(100),
    };
    const weather = { soot: 0.5, damp: 0.3 } as const;
    return (await dressDrawing(path, { ...options, relief, weather })).ok;
  }),
  drawingJob(
    'sheet-drawn',
    20,
    async (out) => (await sheetParts([path], { output: join(out, 'page.pdf') })).ok,
  ),
  drawingJob('sheet-drawn-dots', 10, async (out) => {
    return (await sheetParts([path], { output: join(out, 'page.png'), dpi: dpi(50) })).ok;
  }),
];
