import type { FoundJoints, LeftOut } from '../surface/found-joints.js';
import type { Point } from '../units/parse-point.js';
import { type Canvas, layStrokes } from './canvas.js';
import { dashPath } from './dash-path.js';
import type { Pens } from './pens.js';
import type { Path } from './trace-path.js';
import { lineOnPage, seenOnWall, type WallFrame } from './wall-frame.js';

/** A joint that shows along less of its length was bridged: chance alone gives about a fifth. */
export const leastShown = 0.35;

/** How much of a perpend's height its tick takes. */
const tick = 0.5;

/**
 * Follow the joints between courses across the page.
 *
 * @param frame - How the wall lies on it.
 * @param joints - As found.
 * @returns One line for each, from edge to edge and a little beyond.
 */
export function bedsOnPage(frame: WallFrame, joints: FoundJoints): Path[] {
  const [from, to] = acrossOf(frame, joints);
  return joints.beds.map(({ at }) =>
    lineOnPage(frame, place(joints, at, from), place(joints, at, to)),
  );
}

/**
 * Draw the joints that were found: a line along each bed joint, broken where it hardly shows, and a
 * tick at each perpend; none where the photo is left out.
 *
 * @param canvas - Its page is changed.
 * @param frame - How the wall lies on it.
 * @param joints - As found.
 * @param pens - With what.
 */
export function markJoints(
  canvas: Canvas,
  frame: WallFrame,
  joints: FoundJoints,
  pens: Pens,
): void {
  const range = acrossOf(frame, joints);
  const dash = 9 * canvas.unit;
  const lines = joints.beds.flatMap(({ at, shows }) =>
    gapsBetween(joints, at, range).flatMap(([from, to]) => {
      const line = lineOnPage(frame, place(joints, at, from), place(joints, at, to));
      return shows < leastShown ? dashPath(line, dash, dash) : [line];
    }),
  );
  const ticks = joints.perpends.map(({ at, from, to }) => {
    const middle = (from + to) / 2;
    const half = (tick * (to - from)) / 2;
    return lineOnPage(frame, place(joints, middle - half, at), place(joints, middle + half, at));
  });
  layStrokes(canvas, ticks, pens.perpend);
  layStrokes(canvas, lines, pens.bed);
}

// A point by its place along and across the course axis.
function place({ axis }: FoundJoints, along: number, across: number): Point {
  return axis === 'y' ? { x: across, y: along } : { x: along, y: across };
}

function acrossOf(frame: WallFrame, { axis }: FoundJoints): readonly [number, number] {
  const { x, y, width, height } = seenOnWall(frame);
  return axis === 'y' ? [x, x + width] : [y, y + height];
}

// The stretches of a joint that no left-out part covers.
function gapsBetween(
  { axis, leftOut }: FoundJoints,
  at: number,
  [start, end]: readonly [number, number],
): (readonly [number, number])[] {
  const covered = leftOut
    .map((part) => toStretch(part, axis))
    .filter(({ low, high }) => low < at && at < high)
    .sort((a, b) => a.from - b.from);
  const free: (readonly [number, number])[] = [];
  let next = start;
  for (const { from, to } of covered) {
    if (from > next) free.push([next, from]);
    next = Math.max(next, to);
  }
  if (next < end) free.push([next, end]);
  return free;
}

interface Stretch {
  readonly low: number;
  readonly high: number;
  readonly from: number;
  readonly to: number;
}

function toStretch({ x, y, width, height }: LeftOut, axis: FoundJoints['axis']): Stretch {
  return axis === 'y'
    ? { low: y, high: y + height, from: x, to: x + width }
    : { low: x, high: x + width, from: y, to: y + height };
}
