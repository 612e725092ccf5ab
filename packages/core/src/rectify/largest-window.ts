import type { Rectification } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import type { Size } from '../units/parse-size.js';
import { levelOutline } from './level-outline.js';
import type { StraightenOptions } from './straighten-raster.js';

/** An upright rectangle of the level picture, in its pixels. */
export type LevelRectangle = StraightenOptions['window'];

// Upright lines the outline is measured along, and rounds in which the best two are then placed.
const lines = 192;
const rounds = 4;

/**
 * Find the largest upright rectangle of the level picture that the photo shows all of and that holds
 * the photo's middle.
 *
 * @param rectification - How the photo is made level; its middle must be before the horizon.
 * @param size - The photo, in pixels.
 * @returns The rectangle, to a hundredth of a pixel or so.
 */
export function largestWindow(rectification: Rectification, size: Size<number>): LevelRectangle {
  const outline = levelOutline(rectification, size);
  const middle = { x: size.width / 2, y: size.height / 2 };
  const ends = outline.map(({ x }) => x);
  const toLeft = walkOut(outline, middle, Math.min(...ends));
  const toRight = walkOut(outline, middle, Math.max(...ends));
  let best: Pair = { left: 0, right: 0 };
  let most = 0;
  for (let left = 0; left < lines; left++) {
    for (let right = 0; right < lines; right++) {
      const area = areaOf(toLeft.steps[left]!, toRight.steps[right]!);
      if (area > most) [most, best] = [area, { left, right }];
    }
  }
  return refine(toLeft, toRight, best);
}

interface Pair {
  readonly left: number;
  readonly right: number;
}

// An upright line, and how much of the outline is open all the way from the middle to it.
interface Step {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
}

interface Walk {
  readonly outline: readonly Point[];
  readonly middle: Point;
  readonly steps: readonly Step[];
}

function walkOut(outline: readonly Point[], middle: Point, end: number): Walk {
  const steps: Step[] = [];
  let last: Step = { x: middle.x, top: -Infinity, bottom: Infinity };
  for (let i = 1; i <= lines; i++) {
    // A hair before the end, where an upright side would be crossed everywhere at once.
    const share = i === lines ? 1 - 1e-9 : i / lines;
    last = stepTo(outline, middle, middle.x + share * (end - middle.x), last);
    steps.push(last);
  }
  return { outline, middle, steps };
}

function stepTo(outline: readonly Point[], middle: Point, x: number, before: Step): Step {
  const { top, bottom } = openAt(outline, middle, x);
  return { x, top: Math.max(top, before.top), bottom: Math.min(bottom, before.bottom) };
}

// Between which of its crossings an upright line passes the height of the middle; nothing where it
// does so outside.
function openAt(outline: readonly Point[], middle: Point, x: number): Omit<Step, 'x'> {
  let top = -Infinity;
  let bottom = Infinity;
  let above = 0;
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i]!;
    const b = outline[i + 1 < outline.length ? i + 1 : 0]!;
    if (a.x < x === b.x < x) continue;
    const y = a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
    if (y > middle.y) bottom = Math.min(bottom, y);
    else {
      top = Math.max(top, y);
      above++;
    }
  }
  return above % 2 === 1 ? { top, bottom } : { top: Infinity, bottom: -Infinity };
}

function areaOf(left: Step, right: Step): number {
  const height = Math.min(left.bottom, right.bottom) - Math.max(left.top, right.top);
  return height > 0 ? (right.x - left.x) * height : 0;
}

// Finer and finer steps about the best two lines.
function refine(toLeft: Walk, toRight: Walk, best: Pair): LevelRectangle {
  let left = toLeft.steps[best.left]!;
  let right = toRight.steps[best.right]!;
  let reach = {
    left: Math.abs(toLeft.steps[0]!.x - toLeft.middle.x),
    right: Math.abs(toRight.steps[0]!.x - toRight.middle.x),
  };
  for (let round = 0; round < rounds; round++) {
    const lefts = around(toLeft, left, reach.left);
    const rights = around(toRight, right, reach.right);
    for (const one of lefts) {
      for (const other of rights) {
        if (areaOf(one, other) > areaOf(left, right)) [left, right] = [one, other];
      }
    }
    reach = { left: reach.left / 8, right: reach.right / 8 };
  }
  const y = Math.max(left.top, right.top);
  const height = Math.min(left.bottom, right.bottom) - y;
  return { x: left.x, y, width: right.x - left.x, height };
}

function around({ outline, middle, steps }: Walk, step: Step, reach: number): Step[] {
  const end = steps[lines - 1]!.x;
  return Array.from({ length: 17 }, (_, i) => {
    const x = step.x + (reach * (i - 8)) / 8;
    const held = end < middle.x ? Math.max(end, x) : Math.min(end, x);
    // What is open up to the line before it holds for it too.
    const inner = steps.findLast((one) => Math.abs(one.x - middle.x) < Math.abs(held - middle.x));
    const before = inner ?? { x: middle.x, top: -Infinity, bottom: Infinity };
    return stepTo(outline, middle, held, before);
  });
}
