/** Where a membrane is solved. */
export interface MembraneGrid {
  /** Columns, 3 or more; the first and last are held at 0. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
  /** Whether the last row lies above the first; else both edges are free. */
  readonly closed: boolean;
}

/** How long {@link solveMembrane} goes on. */
export interface MembraneOptions {
  /** It is done once no value moves by more; 0.0001 unless told. */
  readonly tolerance?: number;
  /** It is done after so many sweeps in any case; 400 unless told. */
  readonly sweeps?: number;
}

/**
 * Solve the discrete Poisson equation on a band: at every inner cell, four times the value less
 * its neighbours equals the source. Successive over-relaxation.
 *
 * @param sources - `width * height`; read only.
 * @param grid - Size of the band, and what its edges do.
 * @param values - `width * height`: a first guess, 0 in the first and last column; filled with the
 * solution.
 * @param options - How long to go on.
 * @returns The same `values`.
 * @see Perez, Gangnet and Blake 2003, Poisson image editing, equation 7
 */
export function solveMembrane(
  sources: Float32Array,
  grid: MembraneGrid,
  values: Float32Array,
  options: MembraneOptions = {},
): Float32Array {
  const { tolerance = 1e-4, sweeps = 400 } = options;
  const { width } = grid;
  // The best factor for a strip held on both long sides (Young 1954).
  const relax = 2 / (1 + Math.sin(Math.PI / (width - 1)));
  for (let sweep = 0; sweep < sweeps; sweep++) {
    if (relaxOnce(sources, grid, values, relax) <= tolerance) break;
  }
  return values;
}

function relaxOnce(
  sources: Float32Array,
  grid: MembraneGrid,
  values: Float32Array,
  relax: number,
): number {
  const { width, height, closed } = grid;
  const last = (height - 1) * width;
  let most = 0;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    // A free edge has one neighbour fewer.
    const above = y > 0 || closed ? 1 : 0;
    const below = y + 1 < height || closed ? 1 : 0;
    const up = y > 0 ? row - width : last;
    const down = y + 1 < height ? row + width : 0;
    const scale = 1 / (2 + above + below);
    for (let x = 1; x < width - 1; x++) {
      const at = row + x;
      const old = values[at]!;
      const around =
        values[at - 1]! + values[at + 1]! + above * values[up + x]! + below * values[down + x]!;
      const change = relax * ((around + sources[at]!) * scale - old);
      values[at] = old + change;
      most = Math.max(most, Math.abs(change));
    }
  }
  return most;
}
