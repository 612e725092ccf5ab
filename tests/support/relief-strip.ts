import { join } from 'node:path';
import {
  findScale,
  type MadeRelief,
  makeRelief,
  type MakeReliefOptions,
  realMm,
} from '@gaugerod/core';
import sharp from 'sharp';
import { tempFolder } from './temp-folder.js';

/** A strip as it was written, and read back by another reader. */
export interface ReadStrip {
  readonly made: MadeRelief;
  readonly codes: readonly string[];
  /** What was warned of, in words. */
  readonly messages: readonly string[];
  readonly width: number;
  readonly height: number;
  /** RGBRGB…, row by row. */
  readonly data: Buffer;
  readonly path: string;
}

/** A real length. */
export const mm = realMm;

// A scale by its ratio.
export const oneTo = (ratio: number): ReturnType<typeof findScale> => findScale(`1:${ratio}`);

// Draws a strip, over a colour unless a photo is named.
export async function drawStrip(
  options: Omit<MakeReliefOptions, 'output'>,
  photo: string | null = null,
  name = 'strip.png',
): Promise<ReadStrip> {
  const path = join(tempFolder(), name);
  const made = await makeRelief(photo, { ...options, output: path });
  if (!made.ok) throw new Error(made.message);
  const codes = made.warnings.map(({ code }) => code);
  const messages = made.warnings.map(({ message }) => message);
  const { data, info } = await sharp(path)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  return { made: made.value, codes, messages, width, height, data, path };
}

// Green of every row, at a column.
export function columnOf({ data, width, height }: ReadStrip, x: number): number[] {
  return Array.from({ length: height }, (_, y) => data[3 * (y * width + x) + 1] ?? NaN);
}
