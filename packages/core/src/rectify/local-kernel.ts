/** Weights of the samples about a place on one axis, for every phase of that place. */
export interface LocalKernel {
  /** Samples that go into a new pixel. */
  readonly taps: number;
  /** In phases: an odd number of samples lies about the nearest one, an even one about a gap. */
  readonly shift: number;
  /** `phases` runs of `taps` weights; each run sums to 1. */
  readonly weights: Float64Array;
}

/** Places between two samples that are told apart: a power of two. */
export const phases = 128;

// Scales to an octave: neighbours differ by 2 %, which nobody sees.
const steps = 32;
// Up to the first, new pixels are interpolated; from the second on, they are means of what they cover.
const turn = { from: 1.25, to: 2.25 };
// Half width of the bell, in new pixels: narrow enough to stay sharp, wide enough not to alias.
const bellReach = 0.9;
// Of that, so much lies so low on the bell's foot that no sample is fetched for it.
const foot = 0.07;

const kernels = new Map<number, LocalKernel>();

/**
 * Find the kernel for a local scale: a Lanczos kernel of two lobes where the picture is enlarged or
 * kept, widened where it is somewhat reduced, a bell (raised cosine) of 1.8 new pixels where it is
 * reduced by half or more, and mixtures between, so that nothing changes at once within a picture.
 * Two lobes ring by 6 % of a step, which nobody sees; three would have to be held.
 *
 * @param scale - Photo pixels per new pixel along an axis, above 0.
 * @returns Weights for the nearest scale of a fine ladder.
 * @see Duchon 1979, Lanczos filtering in one and two dimensions, J. Appl. Meteorology 18
 */
export function localKernel(scale: number): LocalKernel {
  const step = Math.max(0, Math.round(steps * Math.log2(scale)));
  const known = kernels.get(step);
  if (known) return known;
  const made = makeKernel(2 ** (step / steps));
  kernels.set(step, made);
  return made;
}

function makeKernel(scale: number): LocalKernel {
  const share = bellShare(scale);
  const taps = Math.ceil(2 * scale * (share < 1 ? 2 : bellReach - foot));
  const shift = taps % 2 === 0 ? 0 : phases / 2;
  const weights = new Float64Array(phases * taps);
  for (let phase = 0; phase < phases; phase++) {
    const run = weights.subarray(phase * taps, (phase + 1) * taps);
    let sum = 0;
    for (let tap = 0; tap < taps; tap++) {
      const x = (tap - ((taps - 1) >> 1) + (shift - phase) / phases) / scale;
      const weight = (1 - share) * lanczos(x) + (share * bell(x / bellReach)) / bellReach;
      sum += weight;
      run[tap] = weight;
    }
    for (let tap = 0; tap < taps; tap++) run[tap]! /= sum;
  }
  return { taps, shift, weights };
}

function bellShare(scale: number): number {
  const t = Math.min(1, Math.max(0, (scale - turn.from) / (turn.to - turn.from)));
  return t * t * (3 - 2 * t);
}

function bell(x: number): number {
  return Math.abs(x) < 1 ? 0.5 + 0.5 * Math.cos(Math.PI * x) : 0;
}

function lanczos(x: number): number {
  if (x === 0) return 1;
  // At whole samples it is nothing, where sines leave a residue.
  if (Math.abs(x) >= 2 || Number.isInteger(x)) return 0;
  const angle = Math.PI * x;
  return (2 * Math.sin(angle) * Math.sin(angle / 2)) / (angle * angle);
}
