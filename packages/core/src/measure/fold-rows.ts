import type { Raster } from '../raster/raster.js';

/** Lightness of a picture, shortened across but whole down: column by column of cells. */
export interface Cells {
  /** Cells across. */
  readonly columns: number;
  /** Samples down each. */
  readonly rows: number;
  /** Pixels of the picture that a cell is wide, seldom whole. */
  readonly cellWidth: number;
  /** `columns * rows` samples, a whole column after another, 0 black to 1 white, perceptual. */
  readonly lightness: Float32Array;
}

const mostColumns = 320;

/**
 * Shorten a picture across, for bed joints lie along its rows: light is averaged as light, then
 * turned into lightness, in which mortar stands out from pale and dark brick alike.
 *
 * @param raster - Linear light.
 * @returns At most 320 cells across, every row kept.
 */
export function foldRows(raster: Raster): Cells {
  const { width, height } = raster;
  const [red, green, blue] = raster.planes;
  const columns = Math.min(width, mostColumns);
  const lightness = new Float32Array(columns * height);
  const edge = Int32Array.from({ length: columns + 1 }, (_, c) =>
    Math.round((c * width) / columns),
  );
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let c = 0; c < columns; c++) {
      const end = row + edge[c + 1]!;
      let r = 0;
      let g = 0;
      let b = 0;
      for (let i = row + edge[c]!; i < end; i++) {
        r += red[i]!;
        g += green[i]!;
        b += blue[i]!;
      }
      const light = (0.2126 * r + 0.7152 * g + 0.0722 * b) / (edge[c + 1]! - edge[c]!);
      // Cube root as in CIE lightness: equal steps look equal, and noise in the dark stays small.
      lightness[c * height + y] = light > 0 ? Math.cbrt(light) : 0;
    }
  }
  return { columns, rows: height, cellWidth: width / columns, lightness };
}
