import type { Raster } from '../raster/raster.js';

/** Lightness of a picture, shortened across more than down: column by column of cells. */
export interface Cells {
  /** Cells across. */
  readonly columns: number;
  /** Samples down each. */
  readonly rows: number;
  /** Width of a cell in its own rows, seldom whole. */
  readonly cellWidth: number;
  /** `columns * rows` samples, a whole column after another, perceptual: 0 black to 1 white. */
  readonly lightness: Float32Array;
}

/** What of a picture is looked at. */
export type View = 'lightness' | 'warmth';

const mostColumns = 320;

/**
 * Shorten a picture across, for bed joints lie along its rows: light is averaged as light, then
 * turned into lightness, in which mortar stands out from pale and dark brick alike.
 *
 * @param raster - Linear light.
 * @param height - Rows of the picture averaged into one row of cells, a whole number of 1 or more.
 * @param view - Lightness, or how much redder than blue: mortar as light as its bricks is greyer.
 * @returns At most 320 cells across.
 */
export function foldRows(raster: Raster, height = 1, view: View = 'lightness'): Cells {
  const { width } = raster;
  const [red, , blue] = raster.planes;
  const rows = Math.floor(raster.height / height);
  const columns = Math.min(width, mostColumns);
  const lightness = new Float32Array(columns * rows);
  const edge = Int32Array.from({ length: columns + 1 }, (_, c) =>
    Math.round((c * width) / columns),
  );
  const sums = new Float64Array(columns);
  const blues = new Float64Array(columns);
  const warm = view === 'warmth';
  for (let row = 0; row < rows; row++) {
    sums.fill(0);
    blues.fill(0);
    for (let y = row * height; y < (row + 1) * height; y++) {
      for (let c = 0; c < columns; c++) {
        const from = y * width + edge[c]!;
        const end = y * width + edge[c + 1]!;
        sums[c] = sums[c]! + (warm ? sumOf(red, from, end) : lightOf(raster.planes, from, end));
        if (warm) blues[c] = blues[c]! + sumOf(blue, from, end);
      }
    }
    for (let c = 0; c < columns; c++) {
      const count = height * (edge[c + 1]! - edge[c]!);
      // Cube root as in CIE lightness: equal steps look equal, and noise in the dark stays small.
      const light = Math.cbrt(Math.max(0, sums[c]! / count));
      lightness[c * rows + row] = warm ? light - Math.cbrt(Math.max(0, blues[c]! / count)) : light;
    }
  }
  return { columns, rows, cellWidth: width / columns / height, lightness };
}

function sumOf(plane: Float32Array, from: number, end: number): number {
  let sum = 0;
  for (let i = from; i < end; i++) sum += plane[i]!;
  return sum;
}

function lightOf([red, green, blue]: Raster['planes'], from: number, end: number): number {
  let sum = 0;
  for (let i = from; i < end; i++) {
    sum += 0.2126 * red[i]! + 0.7152 * green[i]! + 0.0722 * blue[i]!;
  }
  return sum;
}
