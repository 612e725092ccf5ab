import { outOfRange } from '../errors/out-of-range.js';

/** The band on which a membrane is solved: nothing but 0 lies left and right of it. */
export interface MembraneGrid {
  /** Columns, 1 or more. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
  /** Top and bottom: `closed` where they meet, `free` where they end, `held` at 0 beyond them. */
  readonly ends: 'closed' | 'free' | 'held';
}

/**
 * Solve the discrete Poisson equation on a band, exactly: in every cell, as many times its value as
 * it has neighbours, less those neighbours, equals the source. A sine transform across the band
 * leaves one tridiagonal system a frequency down it.
 *
 * @param sources - `width * height`, row by row; read only. Zeros cost nothing.
 * @param grid - Size of the band, and what its ends do.
 * @returns As many values.
 * @throws RangeError when the sizes do not fit.
 * @see Perez, Gangnet and Blake 2003, Poisson image editing, equation 7
 * @see Buzbee, Golub and Nielson 1970, On direct methods for solving Poisson's equations
 */
export function solveMembrane(sources: Float32Array, grid: MembraneGrid): Float32Array {
  const { width, height } = grid;
  if (sources.length !== width * height || !(sources.length >= 1)) {
    throw outOfRange(`${width} x ${height} sources`, 'sources', sources.length);
  }
  const sines = sineTable(width);
  const waves = new Float64Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const source = sources[y * width + x]!;
      if (source !== 0) addWaves(waves, y * width, sines, { x, width, source });
    }
  }
  solveDown(waves, grid);
  return fromWaves(waves, sines, grid);
}

// Every second wave is its own mirror image across the band, the others are so upside down: one half
// of the columns tells the other.
function fromWaves(
  waves: Float64Array,
  sines: Float64Array,
  { width, height }: MembraneGrid,
): Float32Array {
  const values = new Float32Array(width * height);
  const scale = 2 / (width + 1);
  const half = (width + 1) >> 1;
  const alike = new Float64Array(half);
  const turned = new Float64Array(half);
  for (let row = 0; row < values.length; row += width) {
    // Far from every source the fine waves have died away.
    let count = width;
    while (count > 0 && Math.abs(scale * waves[row + count - 1]!) < 1e-9) count--;
    sumWaves(alike, waves.subarray(row, row + count), { sines, first: 0, width, scale });
    sumWaves(turned, waves.subarray(row, row + count), { sines, first: 1, width, scale });
    for (let x = 0, left = row, right = row + width - 1; x < half; x++, left++, right--) {
      values[left] = alike[x]! + turned[x]!;
      values[right] = alike[x]! - turned[x]!;
    }
  }
  return values;
}

// Every second wave, four a pass: the sums are fetched and stored a quarter as often, which takes half the
// time.
function sumWaves(
  out: Float64Array,
  waves: Float64Array,
  of: {
    readonly sines: Float64Array;
    readonly first: number;
    readonly width: number;
    readonly scale: number;
  },
): void {
  const { sines, first, width, scale } = of;
  out.fill(0);
  let wave = first;
  for (; wave + 6 < waves.length; wave += 8) {
    const p = scale * waves[wave]!;
    const q = scale * waves[wave + 2]!;
    const r = scale * waves[wave + 4]!;
    const s = scale * waves[wave + 6]!;
    const a = wave * width;
    const [b, c, d] = [a + 2 * width, a + 4 * width, a + 6 * width];
    for (let x = 0; x < out.length; x++) {
      out[x]! += p * sines[a + x]! + q * sines[b + x]! + r * sines[c + x]! + s * sines[d + x]!;
    }
  }
  for (; wave < waves.length; wave += 2) {
    const share = scale * waves[wave]!;
    const start = wave * width;
    for (let x = 0; x < out.length; x++) out[x]! += share * sines[start + x]!;
  }
}

// sin(pi (x + 1) (wave + 1) / (width + 1)): the same table both ways, for it is symmetric.
function sineTable(width: number): Float64Array {
  const turns = 2 * (width + 1);
  const circle = Float64Array.from({ length: turns }, (_, i) =>
    Math.sin((2 * Math.PI * i) / turns),
  );
  const table = new Float64Array(width * width);
  for (let x = 0; x < width; x++) {
    for (let wave = 0; wave < width; wave++) {
      table[x * width + wave] = circle[((x + 1) * (wave + 1)) % turns]!;
    }
  }
  return table;
}

function addWaves(
  to: Float64Array,
  row: number,
  sines: Float64Array,
  from: { readonly x: number; readonly width: number; readonly source: number },
): void {
  const { width, source } = from;
  const start = from.x * width;
  for (let wave = 0; wave < width; wave++) to[row + wave]! += source * sines[start + wave]!;
}

// One tridiagonal system a wave, all of them a row at a time (Thomas; Sherman and Morrison where
// the ends are closed).
function solveDown(waves: Float64Array, grid: MembraneGrid): void {
  const { width, height } = grid;
  const closed = grid.ends === 'closed' && height > 2;
  const free = grid.ends === 'held' ? 0 : 1;
  const middle = Float64Array.from(
    { length: width },
    (_, wave) => 4 - 2 * Math.cos((Math.PI * (wave + 1)) / (width + 1)),
  );
  const first = middle.map((value) => (closed ? 2 * value : value - free));
  const last = middle.map((value) => (closed ? value + 1 / value : value - free));
  if (height === 1) {
    for (let wave = 0; wave < width; wave++) waves[wave]! /= middle[wave]! - 2 * free;
    return;
  }
  const system = { width, height, first, middle, last };
  const ratios = eliminate(system);
  substitute(waves, system, ratios);
  if (!closed) return;
  const bend = new Float64Array(waves.length);
  const end = (height - 1) * width;
  for (let wave = 0; wave < width; wave++) {
    bend[wave] = -middle[wave]!;
    bend[end + wave] = -1;
  }
  substitute(bend, system, ratios);
  for (let wave = 0; wave < width; wave++) {
    const slope = 1 / middle[wave]!;
    const share =
      (waves[wave]! + slope * waves[end + wave]!) / (1 + bend[wave]! + slope * bend[end + wave]!);
    for (let at = wave; at < waves.length; at += width) waves[at]! -= share * bend[at]!;
  }
}

interface Tridiagonal {
  readonly width: number;
  readonly height: number;
  // The diagonal in the first row, in those between, in the last; its neighbours are -1.
  readonly first: Float64Array;
  readonly middle: Float64Array;
  readonly last: Float64Array;
}

function eliminate({ width, height, first, middle, last }: Tridiagonal): Float64Array {
  const ratios = new Float64Array(width * height);
  for (let wave = 0; wave < width; wave++) ratios[wave] = 1 / first[wave]!;
  for (let y = 1; y < height; y++) {
    const diagonal = y + 1 < height ? middle : last;
    const row = y * width;
    for (let wave = 0; wave < width; wave++) {
      ratios[row + wave] = 1 / (diagonal[wave]! - ratios[row - width + wave]!);
    }
  }
  return ratios;
}

function substitute(values: Float64Array, system: Tridiagonal, ratios: Float64Array): void {
  const { width } = system;
  for (let wave = 0; wave < width; wave++) values[wave]! *= ratios[wave]!;
  for (let at = width; at < values.length; at++) {
    values[at] = (values[at]! + values[at - width]!) * ratios[at]!;
  }
  for (let at = values.length - width - 1; at >= 0; at--) {
    values[at]! += ratios[at]! * values[at + width]!;
  }
}
