import type { Point } from '../units/parse-point.js';
import type { Canvas } from './canvas.js';
import type { PageWindow } from './ink-field.js';
import { layText, textWidth } from './lay-text.js';
import type { Path } from './trace-path.js';

/**
 * Find which way a line runs, turned so that words along it do not stand on their heads.
 *
 * @param line - Two points or more.
 * @returns Radians clockwise from the right, a quarter turn at most either way.
 */
export function turnOf(line: Path): number {
  const turn = Math.atan2((line.at(-1) ?? 0) - (line[1] ?? 0), (line.at(-2) ?? 0) - (line[0] ?? 0));
  if (turn > Math.PI / 2) return turn - Math.PI;
  return turn <= -Math.PI / 2 ? turn + Math.PI : turn;
}

/**
 * Lay words along the middle of a line, on whichever side of it lies inside the photo.
 *
 * @param canvas - The page.
 * @param line - On it.
 * @param words - What is said of it.
 * @returns The strokes of the words.
 */
export function labelLine(canvas: Canvas, line: Path, words: string): Path[] {
  const { photo, unit } = canvas;
  const turn = turnOf(line);
  const size = Math.min(13 * unit, (13 * unit * 0.9 * photo.width) / textWidth(words, 13 * unit));
  const points = line.length / 2;
  const before = 2 * Math.floor((points - 1) / 2);
  const after = 2 * Math.ceil((points - 1) / 2);
  const x = (line[before]! + line[after]!) / 2;
  const y = (line[before + 1]! + line[after + 1]!) / 2;
  const reach = textWidth(words, size) / 2 + 6 * unit;
  const above = -9 * unit;
  const near = { x: x - above * Math.sin(turn), y: y + above * Math.cos(turn) };
  const away = isInside(near, photo, size + 4 * unit) ? above : size - above;
  const [cos, sin] = [Math.abs(Math.cos(turn)) * reach, Math.abs(Math.sin(turn)) * reach];
  return layText(words, {
    x: between(x - away * Math.sin(turn), photo.x + cos, photo.x + photo.width - cos),
    y: between(y + away * Math.cos(turn), photo.y + sin, photo.y + photo.height - sin),
    size,
    align: 'middle',
    turn,
  });
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
