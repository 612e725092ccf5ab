import { wrapInto } from '../../numeric/wrap-into.js';
import type { Canvas } from './canvas.js';
import { type Marks, seeMarks } from './see-marks.js';
import type { PatchOrigin, PatchSource } from './take-patch.js';

/** How often what catches the eye lies in a tile so far. */
export interface MarkTally {
  /** Photo by photo, what there is to count. */
  readonly marks: readonly (readonly Mark[])[];
  /** How often each place of the photos comes, where all come equally often. */
  readonly times: number;
  /** Pixels within which a place is near itself. */
  readonly far: number;
  /** Columns of the tile. */
  readonly width: number;
  /** Its rows. */
  readonly height: number;
}

// A place of a photo, and where in the tile it lies: x and y in turn.
interface Mark {
  readonly x: number;
  readonly y: number;
  readonly strength: number;
  // How often it may come, beside what is ordinary.
  readonly share: number;
  readonly uses: number[];
}

/** A piece of a photo, and where it goes. */
export interface LaidPiece {
  /** Which part of which photo is its top left. */
  readonly origin: Pick<PatchOrigin, 'source' | 'x' | 'y'>;
  /** Where in the tile that lies. */
  readonly to: { readonly x: number; readonly y: number };
  /** Its columns. */
  readonly width: number;
  /** Its rows. */
  readonly height: number;
}

// A mark may come half as often as the photos have it by area.
const markShare = 0.5;
// One place in so many each way is counted though it is ordinary, and weighs this much beside a mark.
const every = 4;
const ordinary = 0.25;

/**
 * Begin to count marks.
 *
 * @param canvas - The tile.
 * @param sources - The photos.
 * @returns Nothing counted.
 */
export function createTally(canvas: Canvas, sources: readonly PatchSource[]): MarkTally {
  const { width, height } = canvas;
  const area = sources.reduce((sum, source) => sum + source.width * source.height, 0);
  return {
    marks: sources.map((source) => listMarks(seeMarks(source))),
    times: (width * height) / area,
    far: Math.min(Math.sqrt(area), width / 2, height / 2),
    width,
    height,
  };
}

function listMarks({ cell, columns, rows, strength }: Marks): Mark[] {
  const marks: Mark[] = [];
  for (let v = 0, at = 0; v < rows; v++) {
    for (let u = 0; u < columns; u++, at++) {
      const place = { x: (u + 0.5) * cell, y: (v + 0.5) * cell, uses: [] };
      const own = strength[at]!;
      if (own > 0) marks.push({ ...place, strength: own, share: markShare });
      else if (u % every === every >> 1 && v % every === every >> 1) {
        marks.push({ ...place, strength: ordinary, share: 1 });
      }
    }
  }
  return marks;
}

/**
 * Say how much is against a piece because it has been seen: because a mark on it has come often, or lies
 * near by.
 *
 * @param tally - What lies in the tile.
 * @param piece - Which might be laid.
 * @returns 0 where nothing is; 1 where one mark has come as often as it may, more where more is against it.
 */
export function weighMarks(tally: MarkTally, piece: LaidPiece): number {
  const { times, far, width, height } = tally;
  const { origin, to } = piece;
  let most = 0;
  for (const { x, y, strength, share, uses } of tally.marks[origin.source]!) {
    if (uses.length === 0 || !isOn(piece, x, y)) continue;
    const atX = wrapInto(to.x + x - origin.x, width);
    const atY = wrapInto(to.y + y - origin.y, height);
    let nearest = far * far;
    for (let i = 0; i < uses.length; i += 2) {
      const right = Math.abs(uses[i]! - atX);
      const down = Math.abs(uses[i + 1]! - atY);
      const across = right + right > width ? width - right : right;
      const along = down + down > height ? height - down : down;
      nearest = Math.min(nearest, across * across + along * along);
    }
    const near = 1 - Math.sqrt(nearest) / far;
    const often = uses.length / 2 / Math.max(1, share * times);
    most = Math.max(most, strength * (often * often + near));
  }
  return most;
}

/**
 * Count the marks of a piece that is laid.
 *
 * @param tally - Added to.
 * @param piece - Which.
 */
export function countMarks(tally: MarkTally, piece: LaidPiece): void {
  const { width, height } = tally;
  const { origin, to } = piece;
  for (const { x, y, uses } of tally.marks[origin.source]!) {
    if (!isOn(piece, x, y)) continue;
    uses.push(wrapInto(to.x + x - origin.x, width), wrapInto(to.y + y - origin.y, height));
  }
}

function isOn({ origin, width, height }: LaidPiece, x: number, y: number): boolean {
  return x >= origin.x && x < origin.x + width && y >= origin.y && y < origin.y + height;
}
