import { cubeRoot } from '../../colour/cube-root.js';
import { powerSpectrum } from '../../numeric/power-spectrum.js';
import type { Raster } from '../../raster/raster.js';

/** Which way the joints of a patch run. */
export interface Direction {
  /** Middle of the patch, pixels of the picture. */
  readonly x: number;
  /** The same, down. */
  readonly y: number;
  /** Of bed joints rows for each column to the right; of perpends columns for each row down. */
  readonly slope: number;
  /** How far it stands out: its power over that of other directions; 3 may be chance. */
  readonly weight: number;
}

/** What the patches of a picture show. */
export interface Directions {
  /** Near level. */
  readonly beds: readonly Direction[];
  /** Near upright. */
  readonly perpends: readonly Direction[];
}

/** Samples across a patch. */
const size = 128;
/** Frequencies along a patch that are looked at: longer waves are light, shorter ones grain. */
const [lowest, highest] = [3, Math.floor(0.4 * size)];
/** Steepest slope looked for: the tangent of some 20 degrees. */
const steepest = 0.36;
const steps = 144;
/** Frequencies across, either way, that lines so steep come to. */
const widest = Math.round(steepest * highest) + 1;
/** Patches at one size of them. */
const most = 4;

/**
 * See which way joints run, patch by patch, at patches of three sizes: the power of a patch's
 * spectrum lies along the line square to its joints, whatever their spacing or colour.
 *
 * @param raster - The picture.
 * @returns One direction near level and one near upright for each patch.
 * @see R. N. Bracewell, Strip integration in radio astronomy, Australian Journal of Physics 9 (1956):
 *   the projection-slice theorem
 */
export function seeDirections(raster: Raster): Directions {
  const beds: Direction[] = [];
  const perpends: Direction[] = [];
  let plane = toLightness(raster);
  for (let step = 1; step <= 4; step *= 2) {
    if (Math.min(plane.width, plane.height) < size) break;
    for (const { left, top } of listPatches(plane)) {
      const power = powerSpectrum(cutPatch(plane, left, top), size);
      const at = { x: (left + size / 2) * step, y: (top + size / 2) * step };
      beds.push({ ...at, ...findPeak(power, size, 1) });
      perpends.push({ ...at, ...findPeak(power, 1, size) });
    }
    plane = halve(plane);
  }
  return { beds, perpends };
}

interface Plane {
  readonly width: number;
  readonly height: number;
  readonly samples: Float32Array;
}

// As lightness, joints stand out from pale and dark alike.
function toLightness({ width, height, planes: [red, green, blue] }: Raster): Plane {
  const samples = new Float32Array(width * height);
  for (let i = 0; i < samples.length; i++) {
    samples[i] = cubeRoot(0.2126 * red[i]! + 0.7152 * green[i]! + 0.0722 * blue[i]!);
  }
  return { width, height, samples };
}

function halve({ width, height, samples }: Plane): Plane {
  const [w, h] = [width >> 1, height >> 1];
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++) {
    for (let x = 0, at = 2 * y * width; x < w; x++, at += 2) {
      out[y * w + x] =
        (samples[at]! + samples[at + 1]! + samples[at + width]! + samples[at + width + 1]!) / 4;
    }
  }
  return { width: w, height: h, samples: out };
}

function listPatches({ width, height }: Plane): { left: number; top: number }[] {
  const spread = (length: number): number[] => {
    const count = Math.min(most, Math.ceil((1.5 * (length - size)) / size) + 1);
    return Array.from({ length: count }, (_, i) =>
      Math.round(((length - size) * (i + (count === 1 ? 0.5 : 0))) / Math.max(1, count - 1)),
    );
  };
  return spread(height).flatMap((top) => spread(width).map((left) => ({ left, top })));
}

function cutPatch({ width, samples }: Plane, left: number, top: number): Float32Array {
  const patch = new Float32Array(size * size);
  for (let y = 0; y < size; y++) {
    const from = (top + y) * width + left;
    patch.set(samples.subarray(from, from + size), y * size);
  }
  return patch;
}

// Power along each line through the middle of the spectrum: `along` is the stride of the main
// frequency, `across` that of the other. Times the frequency squared, for pictures hold the less of
// a frequency the higher it is.
function findPeak(
  power: Float64Array,
  along: number,
  across: number,
): { slope: number; weight: number } {
  const energy = new Float64Array(steps + 1);
  const logs = takeLogarithms(power, along, across);
  const wide = 2 * widest + 1;
  for (let i = 0; i <= steps; i++) {
    const slope = steepest * ((2 * i) / steps - 1);
    for (let k = lowest; k <= highest; k++) {
      const off = -slope * k;
      const whole = Math.round(off);
      const part = off - whole;
      const at = (k - lowest) * wide + widest + whole;
      const a = logs[at - 1]!;
      const b = logs[at]!;
      const c = logs[at + 1]!;
      const here = b + 0.5 * part * (c - a + part * (a - 2 * b + c));
      energy[i] = energy[i]! + Math.exp(here) * k * k;
    }
  }
  let best = 1;
  for (let i = 1; i < steps; i++) if (energy[i]! > energy[best]!) best = i;
  const [a, b, c] = [energy[best - 1]!, energy[best]!, energy[best + 1]!];
  const bend = a - 2 * b + c;
  const shift = bend < 0 ? Math.max(-1, Math.min(1, (0.5 * (a - c)) / bend)) : 0;
  const middle = energy.toSorted()[steps >> 1]!;
  return {
    slope: steepest * ((2 * (best + shift)) / steps - 1),
    weight: middle > 0 ? b / middle : 0,
  };
}

// Peaks of the window are bells: parabolas once their logarithm is taken.
function takeLogarithms(power: Float64Array, along: number, across: number): Float64Array {
  const wide = 2 * widest + 1;
  const logs = new Float64Array((highest - lowest + 1) * wide);
  for (let k = lowest, at = 0; k <= highest; k++) {
    for (let off = -widest; off <= widest; off++, at++) {
      logs[at] = Math.log(power[k * along + (off & (size - 1)) * across]! + 1e-9);
    }
  }
  return logs;
}
