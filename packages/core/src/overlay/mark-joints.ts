import type { FoundJoints, LeftOut } from '../surface/found-joints.js';
import type { Point } from '../units/parse-point.js';
import { type Canvas, layStrokes } from './canvas.js';
import { dashPath } from './dash-path.js';
import { meanCourse } from './mean-course.js';
import type { Pens } from './pens.js';
import type { Path } from './trace-path.js';
import { lineOnPage, seenOnWall, type WallFrame } from './wall-frame.js';

/** A joint that shows along less of its length was bridged: chance alone gives about a fifth. */
export const leastShown = 0.35;

/** Lower courses, in units, are drawn in strips. */
const leastCourse = 13;

type Range = readonly [from: number, to: number];

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
  const { unit } = canvas;
  const strips = isInStrips(joints, frame.scale[joints.axis] / unit);
  const lines = joints.beds.flatMap(({ at, shows }) =>
    gapsBetween(joints, at, strips ? toStrips(range) : [range]).flatMap(([from, to]) => {
      const line = lineOnPage(frame, place(joints, at, from), place(joints, at, to));
      return shows < leastShown ? dashPath(line, 9 * unit, 9 * unit) : [line];
    }),
  );
  const ticks = joints.perpends.flatMap(({ at, from, to }) => {
    const middle = (from + to) / 2;
    if (gapsBetween(joints, middle, [[at, at + 1e-6]]).length === 0) return [];
    const half = (tick * (to - from)) / 2;
    return [lineOnPage(frame, place(joints, middle - half, at), place(joints, middle + half, at))];
  });
  layStrokes(canvas, ticks, pens.perpend);
  layStrokes(canvas, lines, pens.bed);
}

/**
 * Tell whether lines would hide the joints they mark. Then they are drawn in every other strip: in
 * between the wall itself shows whether they are right.
 *
 * @param joints - As found.
 * @param units - Units of the page for each pixel of the photo.
 * @returns Whether courses are too low for whole lines.
 */
export function isInStrips(joints: FoundJoints, units: number): boolean {
  return meanCourse(joints) * units < leastCourse;
}

// A point by its place along and across the course axis.
function place({ axis }: FoundJoints, along: number, across: number): Point {
  return axis === 'y' ? { x: across, y: along } : { x: along, y: across };
}

function acrossOf(frame: WallFrame, { axis }: FoundJoints): Range {
  const { x, y, width, height } = seenOnWall(frame);
  return axis === 'y' ? [x, x + width] : [y, y + height];
}

// Every other of thirteen strips, the first and the last among them.
function toStrips([from, to]: Range): Range[] {
  const wide = (to - from) / 13;
  return Array.from({ length: 7 }, (_, i) => [from + 2 * i * wide, from + (2 * i + 1) * wide]);
}

// The stretches of a joint that no left-out part covers.
function gapsBetween(
  { axis, leftOut }: FoundJoints,
  at: number,
  ranges: readonly Range[],
): Range[] {
  const covered = leftOut
    .map((part) => toStretch(part, axis))
    .filter(({ low, high }) => low < at && at < high)
    .sort((a, b) => a.from - b.from);
  const free: Range[] = [];
  for (const [start, end] of ranges) {
    let next = start;
    for (const { from, to } of covered) {
      if (from > next) free.push([next, Math.min(from, end)]);
      next = Math.max(next, to);
      if (next >= end) break;
    }
    if (next < end) free.push([next, end]);
  }
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
