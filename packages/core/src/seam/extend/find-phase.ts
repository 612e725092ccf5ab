import type { PatternBrick } from './lay-pattern.js';
import type { PerpendLines } from './see-perpends.js';

/** How a bond lies in a picture. */
export interface Phase {
  /** Column of the first perpend of the pattern's course 0, 0 up to one repeat. */
  readonly x: number;
  /** Which course of the pattern the picture's first whole course is. */
  readonly row: number;
  /** The pattern, turned about as in a mirror where it lies so. */
  readonly pattern: readonly (readonly PatternBrick[])[];
  /** How clearly: mean likeness to a joint where the pattern has perpends, over the mean anywhere. */
  readonly clear: number;
}

/**
 * Find how a bond lies in a picture: where its perpends meet the most upright mortar.
 *
 * @param lines - Upright mortar, course by course.
 * @param pattern - The bond's courses.
 * @param repeat - Its repeat in pixels along the course.
 * @returns The best way to lay it.
 */
export function findPhase(
  lines: PerpendLines,
  pattern: readonly (readonly PatternBrick[])[],
  repeat: number,
): Phase {
  const folds = lines.courses.map((line) => fold(line, repeat));
  const anywhere = meanOf(folds);
  let best: Phase = { x: 0, row: 0, pattern, clear: 0 };
  for (const laid of [pattern, mirror(pattern)]) {
    for (let row = 0; row < pattern.length; row++) {
      for (let x = 0; x < repeat; x++) {
        const clear = scoreOf(folds, { x, row, pattern: laid }, repeat) / anywhere;
        if (clear > best.clear) best = { x: x + 0.5, row, pattern: laid, clear };
      }
    }
  }
  return best;
}

function mirror(pattern: readonly (readonly PatternBrick[])[]): (readonly PatternBrick[])[] {
  return pattern.map((bricks) =>
    bricks
      .map((brick) => ({ ...brick, at: (2 - brick.at - brick.length) % 1 }))
      .sort((a, b) => a.at - b.at),
  );
}

// All repeats of a course laid over one another, pixel by pixel.
function fold(line: Float64Array, repeat: number): Float64Array {
  const size = Math.max(1, Math.round(repeat));
  const sums = new Float64Array(size);
  const counts = new Float64Array(size);
  for (let x = 0; x < line.length; x++) {
    const place = Math.floor((((x + 0.5) / repeat) % 1) * size) % size;
    sums[place]! += line[x]!;
    counts[place]!++;
  }
  return sums.map((sum, i) => (counts[i]! > 0 ? sum / counts[i]! : 0));
}

function meanOf(folds: readonly Float64Array[]): number {
  let [sum, count] = [1e-6, 1];
  for (const line of folds) {
    for (const value of line) sum += value;
    count += line.length;
  }
  return sum / count;
}

function scoreOf(
  folds: readonly Float64Array[],
  { x, row, pattern }: Omit<Phase, 'clear'>,
  repeat: number,
): number {
  let [sum, count] = [0, 0];
  for (const [course, line] of folds.entries()) {
    const bricks = pattern[(course + row) % pattern.length]!;
    for (const { at } of bricks) {
      const place = Math.round(((x / repeat + at) % 1) * line.length) % line.length;
      // Perpends wander by a pixel or so.
      const before = line[(place + line.length - 1) % line.length]!;
      const after = line[(place + 1) % line.length]!;
      sum += (before + line[place]! + after) / 3;
      count++;
    }
  }
  return count > 0 ? sum / count : 0;
}
