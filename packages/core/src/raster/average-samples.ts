import { type AxisWeights, axisWeights } from './axis-weights.js';

/** Interleaved samples, 8 bits each, as files hold them. */
export interface Samples {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** A pixel: 1 grey, 2 grey and alpha, 3 colour, 4 colour and alpha. */
  readonly channels: number;
  /** Row by row from the top left. */
  readonly data: Uint8Array;
}

/** Where new pixels lie on an axis of old ones. */
export interface AverageSpan {
  /** Where the first begins, in old pixels; before 0 the edge is held. */
  readonly start: number;
  /** What each covers, in old pixels. */
  readonly pitch: number;
  /** How many, 1 or more. */
  readonly count: number;
}

/**
 * Make a picture smaller by averaging what each new pixel covers, as it is encoded and not in linear
 * light: so that it shows what programs make of the large one, which average encoded values too.
 * Transparent pixels count for nothing but transparency.
 *
 * @param samples - The picture.
 * @param x - Where new columns lie.
 * @param y - Where new rows lie.
 * @param out - As many samples as the smaller picture has; filled. Made anew unless given.
 * @returns The smaller picture.
 */
export function averageSamples(
  samples: Samples,
  x: AverageSpan,
  y: AverageSpan,
  out?: Uint8Array,
): Samples {
  const { channels, width, height } = samples;
  const across = weigh(x, width);
  const down = weigh(y, height);
  const length = x.count * channels;
  const data = out ?? new Uint8Array(length * y.count);
  const sum = new Float64Array(length);
  const rows = new Map<number, Float64Array>();
  // Thousands of rows, made anew, would lie about for long.
  const spare: Float64Array[] = [];
  for (let i = 0; i < y.count; i++) {
    sum.fill(0);
    const needed = new Set<number>();
    for (let tap = i * down.taps; tap < (i + 1) * down.taps; tap++) {
      const weight = down.weights[tap]!;
      if (weight === 0) continue;
      const at = down.indices[tap]!;
      needed.add(at);
      let row = rows.get(at);
      if (row === undefined) {
        row = averageRow(samples, at, {
          weights: across,
          row: spare.pop() ?? new Float64Array(length),
        });
        rows.set(at, row);
      }
      for (let k = 0; k < length; k++) sum[k]! += weight * row[k]!;
    }
    for (const [at, row] of rows) {
      if (needed.has(at)) continue;
      rows.delete(at);
      spare.push(row);
    }
    store(sum, channels, data.subarray(i * length, (i + 1) * length));
  }
  return { width: x.count, height: y.count, channels, data };
}

function weigh({ start, pitch, count }: AverageSpan, length: number): AxisWeights {
  const window = { length, start, extent: pitch * count, size: count };
  return axisWeights({ ...window, wrap: false, kernel: 'area' });
}

function hasAlpha(channels: number): boolean {
  return channels === 2 || channels === 4;
}

// Colour times alpha where there is alpha, so that what is transparent weighs nothing.
function averageRow(
  samples: Samples,
  at: number,
  { weights, row }: { readonly weights: AxisWeights; readonly row: Float64Array },
): Float64Array {
  const { channels, width, data } = samples;
  const { size, taps } = weights;
  row.fill(0);
  const from = at * width * channels;
  const colours = hasAlpha(channels) ? channels - 1 : channels;
  for (let i = 0, tap = 0; i < size; i++) {
    for (const end = tap + taps; tap < end; tap++) {
      const place = from + weights.indices[tap]! * channels;
      let weight = weights.weights[tap]!;
      if (colours < channels) {
        weight *= data[place + colours]!;
        row[i * channels + colours]! += weight;
      }
      for (let c = 0; c < colours; c++) row[i * channels + c]! += weight * data[place + c]!;
    }
  }
  return row;
}

function store(sum: Float64Array, channels: number, out: Uint8Array): void {
  if (!hasAlpha(channels)) {
    // Halves go down: programs that halve a picture drop what is over.
    for (let k = 0; k < out.length; k++) out[k] = Math.ceil(sum[k]! - 0.5);
    return;
  }
  for (let k = 0; k < out.length; k += channels) {
    const alpha = sum[k + channels - 1]!;
    for (let c = 0; c < channels - 1; c++) {
      out[k + c] = alpha > 0 ? Math.min(255, Math.round(sum[k + c]! / alpha)) : 0;
    }
    out[k + channels - 1] = Math.round(alpha);
  }
}
