import {
  createRaster,
  type Raster,
  type WeatherWall,
  weatherWall,
  type WeatherWallOptions,
} from '@gaugerod/core';
import { srgbToLinear } from '../../packages/core/src/colour/srgb.js';

/**
 * One colour all over: what is seen of it is weather.
 *
 * @param width - Columns.
 * @param height - Rows.
 * @returns Linear light of brick.
 */
export function plainWall(width: number, height: number): Raster {
  const raster = createRaster(width, height);
  const light = [0.35, 0.16, 0.1] as const;
  raster.planes.forEach((plane, channel) => plane.fill(light[channel]!));
  return raster;
}

/** What of a weathered wall is looked at, in dots. */
export interface Shown {
  readonly left?: number;
  readonly top?: number;
  readonly width: number;
  readonly height: number;
  readonly mm?: number;
  readonly wall?: Partial<WeatherWall>;
}

/**
 * Weather a wall, plain unless told.
 *
 * @param options - How.
 * @param shown - What of it is looked at.
 * @returns It.
 */
export function weathered(options: WeatherWallOptions, shown: Shown): Raster {
  const { left = 0, top = 0, width, height, mm = 6, wall } = shown;
  const rows = weatherWall(
    {
      raster: plainWall(64, 48),
      bricks: null,
      mmPerDot: { x: mm, y: mm },
      origin: { x: 0, y: 0 },
      meets: { x: true, y: true },
      ...wall,
    },
    options,
  );
  const out = createRaster(width, height);
  let at = 0;
  for (const row of rows?.({ width, height, left, top }) ?? []) {
    for (let i = 0; i < row.length; i++)
      out.planes[i % 3]![at + Math.floor(i / 3)] = srgbToLinear(Math.round(255 * row[i]!));
    at += width;
  }
  return out;
}

/**
 * The same row by row: red, green and blue one after the other.
 *
 * @param options - How.
 * @param shown - What of it is looked at.
 * @returns Light, to be compared exactly.
 */
export function weatheredRows(options: WeatherWallOptions, shown: Shown): number[][] {
  const raster = weathered(options, shown);
  return Array.from({ length: raster.height }, (_, y) =>
    raster.planes.flatMap((plane) => [...plane.subarray(y * raster.width, (y + 1) * raster.width)]),
  );
}

/**
 * Mean light of green over some columns and rows.
 *
 * @param raster - In linear light.
 * @param columns - From, up to.
 * @param rows - From, up to.
 * @returns 0 to 1.
 */
export function meanGreen(
  raster: Raster,
  columns: readonly [number, number],
  rows: readonly [number, number],
): number {
  const { width, planes } = raster;
  const [x0, x1] = columns;
  const [y0, y1] = rows;
  let sum = 0;
  for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) sum += planes[1][y * width + x]!;
  return sum / ((x1 - x0) * (y1 - y0));
}
