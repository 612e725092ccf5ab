import { createRaster, type Raster } from '@gaugerod/core';
import type { RepeatingCut } from './repeating-cuts.js';

/** A picture, or null where that kind of damage cannot befall it. */
export type Damage = (cut: RepeatingCut) => Raster | null;

const whole = (cut: RepeatingCut): Raster => cut.make(0, 0);
// From low to high by the picture's lot.
const between = (low: number, high: number, { lot }: RepeatingCut): number =>
  low + (high - low) * lot;

/** What can be wrong with a picture that repeats one above the other. */
export const damages: Readonly<Record<string, Damage>> = {
  'cut at random': (cut) => {
    if (cut.isGrain) return null;
    const rest = cut.unit ?? whole(cut).height / 4;
    return cut.make(Math.round(between(0.2, 0.8, cut) * rest), Math.round(cut.lot * rest));
  },
  'cut straight through bricks': ({ straight }) => straight?.() ?? null,
  'light from one end': (cut) => {
    const out = whole(cut);
    const fall = between(0.2, 0.4, cut);
    eachRow(out, (row, share) => {
      for (const line of row) for (let x = 0; x < line.length; x++) line[x]! *= 1 + fall * share;
    });
    return out;
  },
  'colour drift of one luminance': (cut) => {
    const out = whole(cut);
    const drift = between(0.2, 0.45, cut);
    eachRow(out, (row, share) => {
      drifted(row, 1 + drift * (share - 0.5));
    });
    return out;
  },
  'half a course, half a brick': (cut) =>
    cut.unit === null ? null : cut.make(Math.round(cut.unit / 2), 0),
  'courses short by 2 px': (cut) => (isMisfit(cut, 2) ? cut.make(2, 0) : null),
  'courses short by 3 px': (cut) => (isMisfit(cut, 3) ? cut.make(3, 0) : null),
  'courses short by 4 px': (cut) => (isMisfit(cut, 4) ? cut.make(4, 0) : null),
  'courses that slope by 2 to 4 px': (cut) =>
    cut.across === null ? null : sheared(whole(cut), between(2, 4, cut)),
  'courses that slope by part of one': (cut) =>
    cut.across === null ? null : sheared(whole(cut), between(0.2, 0.5, cut) * cut.across),
  mirrored: (cut) => mirror(whole(cut)),
};

// Of courses: bricks differ by more in length. Where courses differ by as much as they are laid, one
// more that does is none.
function isMisfit({ unit, across, wander }: RepeatingCut, short: number): boolean {
  return unit !== null && across === null && short >= 2 * wander;
}

function eachRow(
  raster: Raster,
  change: (row: readonly Float32Array[], share: number) => void,
): void {
  const { width, height, planes } = raster;
  for (let y = 0; y < height; y++) {
    change(
      planes.map((plane) => plane.subarray(y * width, (y + 1) * width)),
      y / height,
    );
  }
}

// Redder, less blue, and as light as before (luminance of Recommendation ITU-R BT.709).
function drifted(row: readonly Float32Array[], times: number): void {
  const [red, green, blue] = row;
  if (red === undefined || green === undefined || blue === undefined) return;
  for (let x = 0; x < red.length; x++) {
    const before = 0.2126 * red[x]! + 0.7152 * green[x]! + 0.0722 * blue[x]!;
    red[x]! *= times;
    blue[x]! /= times;
    const after = 0.2126 * red[x]! + 0.7152 * green[x]! + 0.0722 * blue[x]!;
    const back = after > 0 ? before / after : 1;
    for (const line of row) line[x]! *= back;
  }
}

// Each row is moved to the right by a share of `by` that grows from the top to the foot, around.
function sheared(from: Raster, by: number): Raster {
  const { width, height } = from;
  const out = createRaster(width, height);
  for (let channel = 0; channel < 3; channel++) {
    const source = from.planes[channel]!;
    const target = out.planes[channel]!;
    for (let y = 0; y < height; y++) {
      const shift = (by * y) / height;
      const back = Math.ceil(shift);
      const share = back - shift;
      for (let x = 0; x < width; x++) {
        const left = (((x - back) % width) + width) % width;
        const right = (left + 1) % width;
        const row = y * width;
        target[row + x] = source[row + left]! * (1 - share) + source[row + right]! * share;
      }
    }
  }
  return out;
}

function mirror({ width, height, planes }: Raster): Raster {
  const out = createRaster(width, 2 * height);
  for (let channel = 0; channel < 3; channel++) {
    const from = planes[channel]!;
    const to = out.planes[channel]!;
    for (let y = 0; y < height; y++) {
      const row = from.subarray(y * width, (y + 1) * width);
      to.set(row, y * width);
      to.set(row, (2 * height - 1 - y) * width);
    }
  }
  return out;
}
