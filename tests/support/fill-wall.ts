import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type FilledPhoto,
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  findScale,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { afterAll, beforeAll } from 'vitest';

interface FilledPart extends FilledPhoto {
  readonly path: string;
}

export interface WallFolder {
  readonly folder: string;
  // The photo of a wall of UK metric bricks.
  readonly photo: string;
  // A drawing that lies beside it.
  readonly drawing: string;
  // What it is a photo of, and the scale of the model: 1:76.2.
  readonly asked: Pick<FillPhotoOptions, 'course' | 'scale'>;
  // Fills from it into a file of that name.
  readonly fill: (name: string, more: Partial<FillPhotoOptions>) => Promise<FilledPart>;
}

// A folder with a photo and a drawing, gone once the tests of the file are over.
export function wallFolder(seed: number, svg: string): WallFolder {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-wall-'));
  const photo = join(folder, 'wall.png');
  const drawing = join(folder, 'house.svg');
  beforeAll(async () => {
    const wall = drawWall({ bond: 'english', coursePx: 26.3, width: 340, height: 330, seed });
    writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
    writeFileSync(drawing, svg);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  const asked = { course: findCourse('uk-metric'), scale: findScale('OO') };
  const fill = async (name: string, more: Partial<FillPhotoOptions>): Promise<FilledPart> => {
    const path = join(folder, name);
    const filled = await fillPhoto(photo, { ...asked, output: path, ...more });
    if (!filled.ok) throw new Error(filled.message);
    return { ...filled.value, path };
  };
  return { folder, photo, drawing, asked, fill };
}
