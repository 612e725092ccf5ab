import { cubeRoot } from '../../colour/cube-root.js';
import type { Raster } from '../../raster/raster.js';

/** Lightness of a picture, shortened across more than down: column by column of cells. */
export interface Cells {
  /** Cells across. */
  readonly columns: number;
  /** Samples down each. */
  readonly rows: number;
  /** Width of a cell in its own rows, seldom whole. */
  readonly cellWidth: number;
  /** For each column of cells, the first row that the photo shows. */
  readonly from: Int32Array;
  /** One past the last. */
  readonly to: Int32Array;
  /** `columns * rows` samples, a whole column after another, perceptual: 0 black to 1 white. */
  readonly lightness: Float32Array;
}

/** What of a picture is looked at. */
export type View = 'lightness' | 'warmth';

/** Which rows of each column of a picture the photo shows; all of them unless told. */
export interface Shown {
  /** First. */
  readonly from: Int32Array;
  /** One past the last. */
  readonly to: Int32Array;
}

/** How a picture is folded. */
export interface FoldOptions {
  /** Rows of the picture averaged into one row of cells, a whole number of 1 or more; 1 unless told. */
  readonly height?: number;
  /** Lightness, or how much redder than blue: mortar as light as its bricks is greyer. */
  readonly view?: View;
  /** What of it the photo shows. */
  readonly shown?: Shown;
}

const mostColumns = 320;

/**
 * Shorten a picture across, for bed joints lie along its rows: light is averaged as light, then
 * turned into lightness, in which mortar stands out from pale and dark brick alike.
 *
 * @param raster - Linear light.
 * @param options - How.
 * @returns At most 320 cells across.
 */
export function foldRows(raster: Raster, options: FoldOptions = {}): Cells {
  const { height = 1, view = 'lightness', shown } = options;
  const { width } = raster;
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
      if (warm) addColours(raster, y, edge, { reds: sums, blues });
      else addLight(raster, y, edge, sums);
    }
    for (let c = 0; c < columns; c++) {
      const count = height * (edge[c + 1]! - edge[c]!);
      const light = cubeRoot(sums[c]! / count);
      lightness[c * rows + row] = warm ? light - cubeRoot(blues[c]! / count) : light;
    }
  }
  const reach = foldShown(shown, { edge, rows, height });
  return { columns, rows, cellWidth: width / columns / height, lightness, ...reach };
}

// Rows of cells that the photo shows right across the cell.
function foldShown(
  shown: Shown | undefined,
  cells: { readonly edge: Int32Array; readonly rows: number; readonly height: number },
): Shown {
  const { edge, rows, height } = cells;
  const columns = edge.length - 1;
  const from = new Int32Array(columns);
  const to = new Int32Array(columns).fill(rows);
  if (shown === undefined) return { from, to };
  for (let c = 0; c < columns; c++) {
    for (let x = edge[c]!; x < edge[c + 1]!; x++) {
      from[c] = Math.max(from[c]!, Math.ceil(shown.from[x]! / height));
      to[c] = Math.min(to[c]!, Math.floor(shown.to[x]! / height));
    }
  }
  return { from, to };
}

// One row of a picture, cell by cell.
function addLight(raster: Raster, y: number, edge: Int32Array, sums: Float64Array): void {
  const [red, green, blue] = raster.planes;
  const left = y * raster.width;
  for (let c = 0; c < sums.length; c++) {
    const end = left + edge[c + 1]!;
    let sum = sums[c]!;
    for (let i = left + edge[c]!; i < end; i++) {
      sum += 0.2126 * red[i]! + 0.7152 * green[i]! + 0.0722 * blue[i]!;
    }
    sums[c] = sum;
  }
}

function addColours(
  raster: Raster,
  y: number,
  edge: Int32Array,
  { reds, blues }: { readonly reds: Float64Array; readonly blues: Float64Array },
): void {
  const [red, , blue] = raster.planes;
  const left = y * raster.width;
  for (let c = 0; c < reds.length; c++) {
    const end = left + edge[c + 1]!;
    let [redder, bluer] = [reds[c]!, blues[c]!];
    for (let i = left + edge[c]!; i < end; i++) {
      redder += red[i]!;
      bluer += blue[i]!;
    }
    reds[c] = redder;
    blues[c] = bluer;
  }
}
