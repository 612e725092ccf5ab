import { findGlyph } from './stroke-alphabet.js';
import type { Path } from './trace-path.js';

/** Between two letters, where a capital is 10 high. */
const apart = 2.35;
/** Degrees of an arc that pass for a straight line. */
const arcStep = 15;

/** Where a line of text stands. */
export interface TextPlace {
  /** Left end of the line on which the letters stand, or its middle or right end. */
  readonly x: number;
  /** Likewise, downwards. */
  readonly y: number;
  /** Height of a capital. */
  readonly size: number;
  /** What of the text lies at `x`; `left` unless told. */
  readonly align?: 'left' | 'middle' | 'right';
  /** Direction in which it reads: radians clockwise from the right; 0 unless told. */
  readonly turn?: number;
}

/**
 * Find how long a line of text is.
 *
 * @param text - Of any length, on one line.
 * @param size - Height of a capital.
 * @returns From its left end to its right end.
 */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const letter of text) width += findGlyph(letter).width + apart;
  return (Math.max(0, width - apart) * size) / 10;
}

/**
 * Lay a line of text out as a pen draws it, the same on every machine.
 *
 * @param text - Of any length, on one line.
 * @param place - Where it stands, and how large.
 * @returns Its strokes.
 */
export function layText(text: string, place: TextPlace): Path[] {
  const { x, y, size, align = 'left', turn = 0 } = place;
  const scale = size / 10;
  const share = align === 'left' ? 0 : align === 'middle' ? 0.5 : 1;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const paths: Path[] = [];
  let pen = (-share * textWidth(text, size)) / scale;
  for (const letter of text) {
    const { width, strokes } = findGlyph(letter);
    for (const stroke of strokes === '' ? [] : strokes.split('|')) {
      const points: number[] = [];
      for (const token of stroke.trim().split(/\s+/)) {
        const numbers = toPoints(token.split(',').map(Number));
        for (let i = 0; i < numbers.length; i += 2) {
          const u = (pen + numbers[i]!) * scale;
          const v = (numbers[i + 1]! - 10) * scale;
          points.push(x + u * cos - v * sin, y + u * sin + v * cos);
        }
      }
      paths.push(points);
    }
    pen += width + apart;
  }
  return paths;
}

function toPoints(numbers: readonly number[]): readonly number[] {
  if (numbers.length === 2) return numbers;
  const [x = 0, y = 0, rx = 0, ry = 0, from = 0, to = 0] = numbers;
  const steps = Math.ceil(Math.abs(to - from) / arcStep);
  const points: number[] = [];
  for (let step = 0; step <= steps; step++) {
    const angle = ((from + ((to - from) * step) / steps) * Math.PI) / 180;
    points.push(x + rx * Math.cos(angle), y + ry * Math.sin(angle));
  }
  return points;
}
