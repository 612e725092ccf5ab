import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  dressDrawing,
  type DressDrawingOptions,
  type DressedDrawing,
  findCourse,
  findScale,
  parsePaintKey,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { expect } from 'vitest';
import { plainBrick } from './plain-brick.js';
import { tempFolder } from './temp-folder.js';

export const wall = await encodePhoto(drawWall(plainBrick).raster, { format: 'png' });

// OO is 4 mm to the foot, 1:76.2: a course of 75 mm is 75 / 76.2 * 600 / 25.4 = 23.25 dots high.
export const scale = findScale('OO');
export const courseDots = 23.25;
const course = findCourse('75mm');

const page = 'width="60mm" height="40mm" viewBox="0 0 60 40"';

export const svg = (inner: string, more = page): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${more}>\n${inner}\n</svg>\n`;

// A drawing and the wall, in a folder of their own.
export function dressFolder(text: string | Buffer, folder: string = tempFolder()): string {
  writeFileSync(join(folder, 'front.svg'), text);
  writeFileSync(join(folder, 'wall.png'), wall);
  return folder;
}

export const paintOf = (folder: string, keys: readonly string[]): DressDrawingOptions['paint'] =>
  keys.map((text) => {
    const [key = '', photo = 'wall.png'] = text.split('=');
    return { key: parsePaintKey(key, 'paint'), surface: join(folder, photo) };
  });

interface Dressed extends DressedDrawing {
  readonly text: string;
  readonly codes: readonly string[];
  readonly messages: readonly string[];
}

/** What a run is told beside the keys. */
export interface DressWish extends Partial<DressDrawingOptions> {
  readonly from?: string;
  readonly to?: string;
}

export async function dress(
  folder: string,
  keys: readonly string[],
  { from = 'front.svg', to = 'dressed.svg', ...options }: DressWish = {},
): Promise<Dressed> {
  const path = join(folder, from);
  const before = readFileSync(path);
  const output = join(folder, to);
  const paint = paintOf(folder, keys);
  const outcome = await dressDrawing(path, { output, paint, scale, course, ...options });
  if (!outcome.ok) throw new Error(`${outcome.code}: ${outcome.message}`);
  expect(readFileSync(path).equals(before)).toBe(true);
  const { value, warnings } = outcome;
  expect(statSync(output).size).toBe(value.bytesAfter);
  return {
    ...value,
    text: readFileSync(output, 'utf8'),
    codes: warnings.map(({ code }) => code),
    messages: warnings.map(({ message }) => message),
  };
}
