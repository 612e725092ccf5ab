import { type Lattice, px } from '@gaugerod/core';
import type { WallTruth } from '@gaugerod/fixtures';

// Where the joints of a drawn wall lie.
export function latticeOf(truth: WallTruth): Lattice {
  const { coursePx, courseOffset, brickPx, repeat, bond } = truth;
  return {
    axis: 'y',
    course: px(coursePx),
    courseOffset,
    brick: px(brickPx),
    repeat: { x: px(repeat.x), y: px(repeat.y) },
    bond,
  };
}
