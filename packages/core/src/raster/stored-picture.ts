import { decodeSrgb, decodeSrgb16, srgbToLinear } from '../colour/srgb.js';
import type { AxisWeights } from './axis-weights.js';
import { lightLater, type LineSource, linesKept } from './line-source.js';
import { keepTwo } from './narrow-lines.js';
import { createRaster, type Raster } from './raster.js';
import { flattenAlpha } from './flatten-alpha.js';

/** A picture as its decoder gives it: a quarter of what it takes in linear light. */
export interface StoredPicture {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** RGBRGB… or RGBARGBA… in sRGB, 8 or 16 bits each. */
  readonly samples: Uint8Array | Uint16Array;
}

/**
 * Bring a whole picture to linear light, on white where it is transparent.
 *
 * @param stored - As decoded.
 * @returns A raster of its own.
 */
export function toRaster(stored: StoredPicture): Raster {
  const raster = createRaster(stored.width, stored.height);
  toLight(stored, stored.samples, raster.planes);
  return raster;
}

/**
 * Hold a picture in bytes until all of it is wanted in light: for much work its lines will do.
 *
 * @param stored - As decoded.
 * @returns A raster of its own, by `toLines` line by line from bytes until then.
 */
export function holdLight(stored: StoredPicture): Raster {
  let held: StoredPicture | null = stored;
  return lightLater(linesHeld(stored), () => {
    if (held === null) throw new Error('a picture is brought to light once');
    const { planes } = toRaster(held);
    held = null;
    return planes;
  });
}

// Apart: where one function of a scope holds the bytes, all of that scope do.
function linesHeld(stored: StoredPicture): LineSource {
  return { ...toLightLines(stored), transposed: () => holdLight(transposeStored(stored)) };
}

/**
 * Count what of a picture is not fully opaque.
 *
 * @param stored - As decoded.
 * @returns Pixels; 0 where there is no transparency in it.
 */
export function countClear(stored: StoredPicture): number {
  const { samples } = stored;
  if (!hasAlpha(stored)) return 0;
  const full = samples instanceof Uint8Array ? 255 : 65_535;
  let clear = 0;
  for (let at = 3; at < samples.length; at += 4) if (samples[at]! < full) clear++;
  return clear;
}

function transposeStored({ width, height, samples }: StoredPicture): StoredPicture {
  const channels = samples.length / (width * height);
  const stride = width * channels;
  const out = new (samples instanceof Uint8Array ? Uint8Array : Uint16Array)(samples.length);
  // A block at a time, so that neither side leaves the cache.
  for (let top = 0; top < height; top += 32) {
    const bottom = Math.min(height, top + 32);
    for (let x = 0; x < width; x++) {
      let at = (x * height + top) * channels;
      for (let y = top; y < bottom; y++) {
        const from = y * stride + x * channels;
        for (let i = 0; i < channels; i++) out[at++] = samples[from + i]!;
      }
    }
  }
  return { width: height, height: width, samples: out };
}

function hasAlpha({ width, height, samples }: StoredPicture): boolean {
  return samples.length === width * height * 4;
}

/**
 * Bring a picture to linear light line by line, each when it is asked for.
 *
 * @param stored - As decoded.
 * @returns The same light as in {@link toRaster}.
 */
export function toLightLines(stored: StoredPicture): LineSource {
  const { width, height, samples } = stored;
  const stride = samples.length / height;
  // In one memory, as lines of a raster are: those who sum them do so in half the time.
  const memory = new Float32Array(3 * linesKept * width);
  const lineOf = (nth: number): Float32Array => memory.subarray(nth * width, (nth + 1) * width);
  const kept = Array.from(
    { length: linesKept },
    (_, slot) => [lineOf(3 * slot), lineOf(3 * slot + 1), lineOf(3 * slot + 2)] as const,
  );
  const rows = new Int32Array(linesKept).fill(-1);
  const asked = new Float64Array(linesKept);
  let time = 0;
  const line = (channel: 0 | 1 | 2, y: number): Float32Array => {
    let slot = rows.indexOf(y);
    if (slot < 0) {
      slot = 0;
      for (let i = 1; i < linesKept; i++) if (asked[i]! < asked[slot]!) slot = i;
      rows[slot] = y;
      toLight(stored, samples.subarray(y * stride, (y + 1) * stride), kept[slot]!);
    }
    asked[slot] = ++time;
    return kept[slot]![channel];
  };
  if (!(samples instanceof Uint8Array) || hasAlpha(stored)) return { width, height, line };
  return { width, height, line, narrowed: (across) => narrowBytes(samples, stride, across) };
}

// From bytes to means of light in one go.
function narrowBytes(
  bytes: Uint8Array,
  stride: number,
  across: AxisWeights,
): (y: number) => Float64Array {
  // As it was rounded, but in the width that it is reckoned in; that and a line of its own take half the time.
  const light = Float64Array.from({ length: 256 }, (_, byte) => srgbToLinear(byte));
  const { taps, weights } = across;
  const places = across.indices.map((index) => 3 * index);
  return keepTwo(across, (line, y) => {
    const row = bytes.subarray(y * stride, (y + 1) * stride);
    for (let i = 0, tap = 0; i < line.length; i += 3) {
      let red = 0;
      let green = 0;
      let blue = 0;
      for (const end = tap + taps; tap < end; tap++) {
        const weight = weights[tap]!;
        const at = places[tap]!;
        red += weight * light[row[at]!]!;
        green += weight * light[row[at + 1]!]!;
        blue += weight * light[row[at + 2]!]!;
      }
      line[i] = red;
      line[i + 1] = green;
      line[i + 2] = blue;
    }
  });
}

// Some of its pixels.
function toLight(
  stored: StoredPicture,
  samples: Uint8Array | Uint16Array,
  planes: Raster['planes'],
): void {
  if (samples instanceof Uint16Array) decodeSrgb16(samples, planes);
  else decodeSrgb(samples, planes);
  if (hasAlpha(stored)) flattenAlpha(samples, planes);
}
