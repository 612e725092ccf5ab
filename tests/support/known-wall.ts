import { type FoundJoints, type Measurement, px, realMm } from '@gaugerod/core';
import type { Drawn, WallTruth } from '@gaugerod/fixtures';

/**
 * Say of a drawn wall what a perfect measurement would.
 *
 * @param wall - As drawn.
 * @returns Its truth as a measurement.
 */
export function measurementOf(wall: Drawn<WallTruth>): Measurement {
  const { truth } = wall;
  const { mmPerPx, rectification, coursePx, courseOffset } = truth;
  return {
    method: 'courses',
    reference: { id: 'own', name: 'course of 75 mm', size: realMm(75), uncertainty: 0, source: '' },
    mmPerPx,
    uncertaintyPercent: 0.4,
    budget: [],
    confidence: 0.97,
    rectification,
    lattice: {
      axis: 'y',
      course: px(coursePx),
      courseOffset,
      brick: null,
      repeat: { x: null, y: null },
      bond: null,
    },
  };
}

/**
 * Say of a drawn wall what a perfect eye would find.
 *
 * @param wall - As drawn.
 * @returns Its bed joints.
 */
export function jointsOf(wall: Drawn<WallTruth>): FoundJoints {
  const { truth } = wall;
  return {
    axis: 'y',
    rectification: truth.rectification,
    beds: truth.bedJoints.map((at) => ({ at, shows: 1 })),
    perpends: [],
    leftOut: [],
  };
}
