import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findCourse, measurePhoto } from '@gaugerod/core';
import { drawWall, encodePhoto, type WallOptions } from '@gaugerod/fixtures';

/** A photo and what is kept beside it. */
export interface MeasuredWall {
  /** PNG. */
  readonly photo: Buffer;
  /** Of its surface file. */
  readonly sidecar: Buffer;
}

/**
 * Draw a wall of metric brick and measure it.
 *
 * @param options - What is not as usual.
 * @returns Photo and measurement.
 */
export async function measureDrawn(options: Partial<WallOptions> = {}): Promise<MeasuredWall> {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-wall-'));
  const path = join(folder, 'wall.png');
  const { raster } = drawWall({ coursePx: 25, width: 300, height: 200, seed: 7, ...options });
  const photo = await encodePhoto(raster, { format: 'png' });
  writeFileSync(path, photo);
  const measured = await measurePhoto(path, { course: findCourse('uk-metric'), save: true });
  if (!measured.ok) throw new Error(measured.message);
  const sidecar = readFileSync(join(folder, 'wall.surface.json'));
  rmSync(folder, { recursive: true });
  return { photo, sidecar };
}

let usual: Promise<MeasuredWall> | undefined;

/**
 * The usual one, drawn once.
 *
 * @returns Photo and measurement.
 */
export function measuredWall(): Promise<MeasuredWall> {
  return (usual ??= measureDrawn());
}
