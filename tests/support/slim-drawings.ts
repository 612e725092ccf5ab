import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { slimDrawing, type SlimDrawingOptions, type SlimmedDrawing } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { expect } from 'vitest';
import { encodeSrgb } from '../../packages/core/src/colour/srgb.js';
import { tempFolder } from './temp-folder.js';

// 600 x 450 px of brickwork.
async function drawBricks(): Promise<Readonly<Record<'png' | 'jpeg' | 'soft', Buffer>>> {
  const { planes } = drawWall({
    bond: 'flemish',
    coursePx: 31,
    width: 600,
    height: 450,
    seed: 11,
  }).raster;
  const bytes = Buffer.alloc(600 * 450 * 3);
  planes.forEach((plane, c) => {
    plane.forEach((light, i) => (bytes[i * 3 + c] = encodeSrgb(light)));
  });
  const wall = sharp(bytes, { raw: { width: 600, height: 450, channels: 3 } });
  const png = await wall.clone().png().toBuffer();
  const jpeg = await wall.clone().jpeg({ quality: 95, chromaSubsampling: '4:4:4' }).toBuffer();
  // As a photograph whose lens is less sharp than its pixels.
  const soft = await wall
    .clone()
    .blur(4)
    .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
    .toBuffer();
  return { png, jpeg, soft };
}

export const { png, jpeg, soft } = await drawBricks();

export const uri = (bytes: Buffer, type = 'png'): string =>
  `data:image/${type};base64,${bytes.toString('base64')}`;

const head =
  'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="60mm" height="40mm" viewBox="0 0 60 40"';

export const svg = (inner: string, more = head): string => `<svg ${more}>\n${inner}\n</svg>\n`;

interface Slimmed extends SlimmedDrawing {
  readonly text: string;
  readonly codes: readonly string[];
}

export async function slim(
  folder: string,
  options: Partial<SlimDrawingOptions> = {},
  name = 'front.svg',
): Promise<Slimmed> {
  const path = join(folder, name);
  const before = readFileSync(path);
  const output = join(folder, 'small.svg');
  const outcome = await slimDrawing(path, { output, ...options });
  if (!outcome.ok) throw new Error('refused');
  expect(readFileSync(path).equals(before)).toBe(true);
  const { value, warnings } = outcome;
  const text = value.output === null ? '' : readFileSync(value.output, 'utf8');
  if (value.output !== null) expect(statSync(value.output).size).toBe(value.bytesAfter);
  return { ...value, text, codes: warnings.map(({ code }) => code) };
}

export function drawingFolder(text: string | Buffer): string {
  const folder = tempFolder();
  writeFileSync(join(folder, 'front.svg'), text);
  return folder;
}

// The pictures that a drawing holds, in order.
export function picturesIn(text: string): Buffer[] {
  return [...text.matchAll(/base64,([A-Za-z0-9+/=]*)/g)].map(([, data = '']) =>
    Buffer.from(data, 'base64'),
  );
}

export const clip = '<clipPath id="c"><path d="M8.3 6.2h9v7l-3 2h-6z"/></clipPath>';
export const image = (href: string, more = ''): string =>
  `<image x="5.13" y="5.21" width="24" height="18" ${more} xlink:href="${href}"/>`;

// 600 px on 12 mm are 1270 dpi, on 8 mm 1905.
export const small = (href: string, more = ''): string =>
  `<image x="5.13" y="5.21" width="12" height="9" ${more} xlink:href="${href}"/>`;
