import type { Raster } from '@gaugerod/core';

/** What the bricks of a picture look like, by means of its own: a threshold, and runs of pixels. */
export interface Outlines {
  /** Length of each brick, in pixels, joints left out. */
  readonly lengths: readonly number[];
  /** Height of each. */
  readonly heights: readonly number[];
  /** Share of the picture that is joint. */
  readonly joints: number;
  /** By how much each brick's left half is lighter than its right, in square roots of light. */
  readonly halves: readonly number[];
  /** How far each bed joint is from straight, in pixels, root mean square. */
  readonly bends: readonly number[];
}

/** Where courses lie. */
export interface Laid {
  readonly course: number;
  readonly offset: number;
}

/**
 * Outline the bricks of a picture whose mortar is much lighter than they.
 *
 * @param raster - Level, in linear light.
 * @param laid - Its courses.
 * @returns What was found.
 */
export function outline(raster: Raster, laid: Laid): Outlines {
  const { width, height, planes } = raster;
  const roots = planes[1].map((light) => Math.sqrt(Math.max(0, light)));
  const least = threshold(roots);
  const joint = Uint8Array.from(roots, (root) => (root > least ? 1 : 0));
  const joints = joint.reduce((sum, one) => sum + one, 0) / joint.length;
  const lengths: number[] = [];
  const heights: number[] = [];
  const halves: number[] = [];
  for (let at = laid.offset + laid.course / 2; at < height - laid.course / 2; at += laid.course) {
    const y = Math.round(at);
    for (const [left, right] of runsOf(midline(joint, width, y), laid.course / 4)) {
      lengths.push(right - left);
      heights.push(columnRun(joint, width, { x: (left + right) >> 1, y }));
      halves.push(halfStep(roots, width, { left, right, y }));
    }
  }
  return { lengths, heights, joints, halves, bends: bendsOf(roots, raster, laid) };
}

// Half way between what is usual and the lightest twentieth.
function threshold(roots: Float32Array): number {
  const sorted = roots.toSorted();
  const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))]!;
  return (at(0.4) + at(0.95)) / 2;
}

// Joint where three of five rows about the middle of the course are.
function midline(joint: Uint8Array, width: number, y: number): Uint8Array {
  return Uint8Array.from({ length: width }, (_, x) => {
    let sum = 0;
    for (let d = -2; d <= 2; d++) sum += joint[(y + d) * width + x] ?? 0;
    return sum >= 3 ? 1 : 0;
  });
}

function runsOf(line: Uint8Array, least: number): [number, number][] {
  const runs: [number, number][] = [];
  let start = -1;
  for (let x = 0; x < line.length; x++) {
    if (line[x] === 1) {
      // The first run may begin before the picture does.
      if (start > 0 && x - start >= least) runs.push([start, x]);
      start = x + 1;
    }
  }
  return runs;
}

function columnRun(
  joint: Uint8Array,
  width: number,
  { x, y }: { readonly x: number; readonly y: number },
): number {
  let [top, bottom] = [y, y];
  while (joint[(top - 1) * width + x] === 0) top--;
  while (joint[(bottom + 1) * width + x] === 0) bottom++;
  return bottom - top + 1;
}

function halfStep(
  roots: Float32Array,
  width: number,
  { left, right, y }: { readonly left: number; readonly right: number; readonly y: number },
): number {
  const middle = (left + right) / 2;
  let [one, other] = [0, 0];
  for (let d = -2; d <= 2; d++) {
    for (let x = left + 2; x < right - 2; x++) {
      if (x + 0.5 < middle) one += roots[(y + d) * width + x] ?? 0;
      else other += roots[(y + d) * width + x] ?? 0;
    }
  }
  return Math.abs(one - other) / (5 * Math.max(1, (right - left) / 2 - 2));
}

// Each bed's middle in windows of two courses, against its mean and slope.
function bendsOf(roots: Float32Array, { width, height }: Raster, laid: Laid): number[] {
  const { course, offset } = laid;
  const count = Math.max(2, Math.floor(width / (2 * course)));
  const bends: number[] = [];
  for (let bed = 1; offset + bed * course < height - course / 2; bed++) {
    const at = Math.round(offset + bed * course);
    const reach = Math.round(course / 4);
    const places = Array.from({ length: count }, (_, i) => {
      let [sum, moment] = [0, 0];
      let low = Infinity;
      const rows = Array.from({ length: 2 * reach + 1 }, (__, d) => {
        let row = 0;
        const start = (at + d - reach) * width;
        for (let x = Math.floor((i * width) / count); x < ((i + 1) * width) / count; x++) {
          row += roots[start + x] ?? 0;
        }
        low = Math.min(low, row);
        return row;
      });
      for (const [d, row] of rows.entries()) {
        sum += (row - low) ** 2;
        moment += (row - low) ** 2 * (d - reach);
      }
      return sum > 0 ? moment / sum : 0;
    });
    bends.push(residue(places));
  }
  return bends;
}

function residue(places: readonly number[]): number {
  const middle = (places.length - 1) / 2;
  const mean = places.reduce((sum, place) => sum + place, 0) / places.length;
  let [slope, spread] = [0, 1e-9];
  for (const [i, place] of places.entries()) {
    slope += (i - middle) * place;
    spread += (i - middle) ** 2;
  }
  const squares = places.map((place, i) => (place - mean - (slope / spread) * (i - middle)) ** 2);
  return Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / places.length);
}
