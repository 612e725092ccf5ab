import type { Point } from '../units/parse-point.js';
import type { Canvas } from './canvas.js';
import type { PageWindow } from './ink-field.js';
import { layText, textWidth } from './lay-text.js';
import type { Path } from './trace-path.js';

/** Lines this steep read upwards, whichever way they were marked: 75 degrees. */
const steep = (75 * Math.PI) / 180;

/**
 * Find which way a line runs, turned so that words along it do not stand on their heads, and read
 * upwards where it is steep.
 *
 * @param line - Two points or more.
 * @returns Radians clockwise from the right.
 */
export function turnOf(line: Path): number {
  const turn = Math.atan2((line.at(-1) ?? 0) - (line[1] ?? 0), (line.at(-2) ?? 0) - (line[0] ?? 0));
  if (turn > steep) return turn - Math.PI;
  return turn <= steep - Math.PI ? turn + Math.PI : turn;
}

/**
 * Lay words along the middle of a line, on whichever side of it lies inside the photo; words longer
 * than a steep line stand level beside it.
 *
 * @param canvas - The page.
 * @param line - On it.
 * @param words - What is said of it.
 * @returns The strokes of the words.
 */
export function labelLine(canvas: Canvas, line: Path, words: string): Path[] {
  const { photo, unit } = canvas;
  const size = Math.min(13 * unit, (13 * unit * 0.9 * photo.width) / textWidth(words, 13 * unit));
  const half = textWidth(words, size) / 2 + 6 * unit;
  const middle = middleOf(line);
  const along = turnOf(line);
  const long = Math.hypot((line.at(-2) ?? 0) - (line[0] ?? 0), (line.at(-1) ?? 0) - (line[1] ?? 0));
  const beside = long < 2 * half && Math.abs(along) > Math.PI / 4;
  const turn = beside ? 0 : along;
  // From the line's middle to the foot of the words' middle, across them and along them.
  const [aside, above] = beside ? [half + 4 * unit, size / 2] : [0, -9 * unit];
  const near = shift(middle, turn, { aside, above });
  const far = shift(middle, turn, { aside: -aside, above: beside ? above : size - above });
  const fits = isInside(near, photo, beside ? half : size + 4 * unit);
  const foot = fits ? near : far;
  const [across, down] = [Math.abs(Math.cos(turn)) * half, Math.abs(Math.sin(turn)) * half];
  return layText(words, {
    x: between(foot.x, photo.x + across, photo.x + photo.width - across),
    y: between(foot.y, photo.y + down, photo.y + photo.height - down),
    size,
    align: 'middle',
    turn,
  });
}

function middleOf(line: Path): Point {
  const points = line.length / 2;
  const before = 2 * Math.floor((points - 1) / 2);
  const after = 2 * Math.ceil((points - 1) / 2);
  return {
    x: (line[before]! + line[after]!) / 2,
    y: (line[before + 1]! + line[after + 1]!) / 2,
  };
}

function shift(
  { x, y }: Point,
  turn: number,
  by: { readonly aside: number; readonly above: number },
): Point {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { x: x + by.aside * cos - by.above * sin, y: y + by.aside * sin + by.above * cos };
}

function isInside({ x, y }: Point, photo: PageWindow, by: number): boolean {
  return (
    x > photo.x + by &&
    y > photo.y + by &&
    x < photo.x + photo.width - by &&
    y < photo.y + photo.height - by
  );
}

function between(value: number, low: number, high: number): number {
  return low > high ? (low + high) / 2 : Math.min(high, Math.max(low, value));
}
