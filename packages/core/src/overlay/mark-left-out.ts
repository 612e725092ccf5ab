import type { LeftOut } from '../surface/found-joints.js';
import { type Canvas, layStrokes } from './canvas.js';
import { dashPath } from './dash-path.js';
import { layText, textWidth } from './lay-text.js';
import type { Pens } from './pens.js';
import type { Path } from './trace-path.js';
import { levelToPage, type WallFrame } from './wall-frame.js';

/**
 * Hatch what was left out, and say so where there is room.
 *
 * @param canvas - Its page is changed.
 * @param frame - How the wall lies on it.
 * @param parts - What was left out.
 * @param pens - With what.
 */
export function markLeftOut(
  canvas: Canvas,
  frame: WallFrame,
  parts: readonly LeftOut[],
  pens: Pens,
): void {
  const { unit, photo } = canvas;
  const outlines = parts.map((part) => outlineOf(frame, part));
  const lines = outlines.flatMap((outline) => [
    ...hatch(outline, 11 * unit),
    ...dashPath([...outline, ...outline.slice(0, 2)], 5 * unit, 3 * unit),
  ]);
  layStrokes(canvas, lines, pens.hatch);
  const words = outlines.flatMap((outline) => {
    const xs = outline.filter((_, i) => i % 2 === 0);
    const ys = outline.filter((_, i) => i % 2 === 1);
    const left = Math.max(photo.x, Math.min(...xs));
    const right = Math.min(photo.x + photo.width, Math.max(...xs));
    const top = Math.max(photo.y, Math.min(...ys));
    const bottom = Math.min(photo.y + photo.height, Math.max(...ys));
    const size = 11 * unit;
    if (right - left < 1.3 * textWidth('left out', size) || bottom - top < 2 * size) return [];
    const place = { x: (left + right) / 2, y: (top + bottom + size) / 2, size } as const;
    return layText('left out', { ...place, align: 'middle' });
  });
  layStrokes(canvas, words, pens.label);
}

function outlineOf(frame: WallFrame, { x, y, width, height }: LeftOut): Path {
  return [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ].flatMap((corner) => {
    const on = levelToPage(frame, corner);
    return [on.x, on.y];
  });
}

// Lines at half a right angle, where they lie inside the convex outline.
function hatch(outline: Path, apart: number): Path[] {
  const sums: number[] = [];
  for (let i = 0; i < outline.length; i += 2) sums.push(outline[i]! + outline[i + 1]!);
  const lines: Path[] = [];
  const last = Math.max(...sums);
  for (let sum = Math.ceil(Math.min(...sums) / apart) * apart; sum < last; sum += apart) {
    const ends: number[] = [];
    for (let i = 0; i < sums.length; i++) {
      const j = (i + 1) % sums.length;
      const [a, b] = [sums[i]! - sum, sums[j]! - sum];
      if (a < 0 === b < 0) continue;
      const t = a / (a - b);
      ends.push(
        outline[2 * i]! + t * (outline[2 * j]! - outline[2 * i]!),
        outline[2 * i + 1]! + t * (outline[2 * j + 1]! - outline[2 * i + 1]!),
      );
    }
    if (ends.length === 4) lines.push(ends);
  }
  return lines;
}
