import { applyHomography, type Homography } from '../../numeric/homography.js';
import { solveHomography } from '../../numeric/solve-homography.js';
import type { Box } from '../../page/page.js';
import type { Raster } from '../../raster/raster.js';
import type { FoundMark } from './find-marks.js';
import { codeCells, fromCode, markCentres, markHole, markSide } from './strip-layout.js';

/** Where a strip lies in a picture. */
export interface PlacedStrip {
  /** From mm of the strip to px of the picture. */
  readonly map: Homography;
  /** Which strip it is. */
  readonly version: number;
  /** Whether it is seen in a mirror. */
  readonly mirrored: boolean;
  /** By how many quarter turns to the right it stands on its side, 0 to 3. */
  readonly turns: number;
}

// Black and white of a code, as shares of the white beside it.
const black = 0.4;
const white = 0.65;
// A mark's area may be off what its place says by so much either way.
const unlike = 1.8;

/**
 * Find which four marks are those of a strip, and which of them is which.
 *
 * @param picture - In linear light.
 * @param marks - What may be its marks.
 * @returns Where it lies, or null where no four of them have a strip's code between them.
 */
export function placeStrip(picture: Raster, marks: readonly FoundMark[]): PlacedStrip | null {
  for (const four of foursOf(marks)) {
    const around = inOrder(four);
    for (const mirrored of [false, true]) {
      // A page that is upright in the mirror is not turned.
      const order = mirrored ? mirrorOf(around) : around;
      for (let turns = 0; turns < 4; turns++) {
        const corners = [...order.slice(turns), ...order.slice(0, turns)];
        const map = mapOf(corners);
        if (map === null || !fits(map, corners)) continue;
        const version = readCode(picture, map);
        if (version !== null) return { map, version, mirrored, turns };
      }
    }
  }
  return null;
}

function* foursOf(marks: readonly FoundMark[]): Generator<readonly FoundMark[]> {
  // The last of them in the outermost loop: fours of the largest marks come first.
  for (let d = 3; d < marks.length; d++) {
    for (let c = 2; c < d; c++) {
      for (let b = 1; b < c; b++) {
        for (let a = 0; a < b; a++) yield [marks[a]!, marks[b]!, marks[c]!, marks[d]!];
      }
    }
  }
}

// Clockwise about their middle, from the one nearest the top left corner of the picture.
function inOrder(four: readonly FoundMark[]): readonly FoundMark[] {
  const x = four.reduce((sum, mark) => sum + mark.x, 0) / 4;
  const y = four.reduce((sum, mark) => sum + mark.y, 0) / 4;
  const angle = (mark: FoundMark): number => Math.atan2(mark.y - y, mark.x - x);
  return four.toSorted((one, other) => angle(one) - angle(other));
}

// Left for right.
function mirrorOf(around: readonly FoundMark[]): readonly FoundMark[] {
  const back = around.toReversed();
  return [...back.slice(2), ...back.slice(0, 2)];
}

function mapOf(corners: readonly FoundMark[]): Homography | null {
  try {
    return solveHomography(markCentres.map((from, i) => ({ from, to: corners[i]! })));
  } catch {
    // Three in a line are no strip's.
    return null;
  }
}

// Marks are as large as where they lie says.
function fits(map: Homography, corners: readonly FoundMark[]): boolean {
  const ring = markSide ** 2 - markHole ** 2;
  return markCentres.every(({ x, y }, i) => {
    const ratio = corners[i]!.area / (ring * areaAt(map, x, y));
    return ratio > 1 / unlike && ratio < unlike;
  });
}

/**
 * Tell how many pixels a square millimetre of the strip covers.
 *
 * @param map - From mm to px.
 * @param x - Where, mm.
 * @param y - Where, mm.
 * @returns Square pixels.
 */
export function areaAt(map: Homography, x: number, y: number): number {
  const half = 0.5;
  const [a, b] = [applyHomography(map, x - half, y), applyHomography(map, x + half, y)];
  const [c, d] = [applyHomography(map, x, y - half), applyHomography(map, x, y + half)];
  return Math.abs((b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x));
}

function readCode(picture: Raster, map: Homography): number | null {
  const code: boolean[] = [];
  for (const box of codeCells) {
    const paper = (lightOf(picture, map, above(box)) + lightOf(picture, map, below(box))) / 2;
    const share = lightOf(picture, map, box) / paper;
    if (!(share < black || share > white)) return null;
    code.push(share < black);
  }
  return fromCode(code);
}

function above(box: Box): Box {
  return { ...box, y: box.y - 0.6 * box.height, height: 0.4 * box.height };
}

function below(box: Box): Box {
  return { ...box, y: box.y + 1.2 * box.height, height: 0.4 * box.height };
}

// In the middle half of a box.
function lightOf({ width, height, planes }: Raster, map: Homography, box: Box): number {
  let sum = 0;
  for (let i = 0; i < 25; i++) {
    const along = 0.25 + (0.5 * (i % 5)) / 4;
    const down = 0.25 + (0.5 * Math.floor(i / 5)) / 4;
    const at = applyHomography(map, box.x + along * box.width, box.y + down * box.height);
    const [x, y] = [Math.floor(at.x), Math.floor(at.y)];
    if (!(x >= 0 && y >= 0 && x < width && y < height)) return NaN;
    for (const plane of planes) sum += plane[y * width + x]! / 75;
  }
  return sum;
}
