import type { FoundJoints } from '../surface/found-joints.js';
import type { Measurement } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import type { RealMm } from '../units/units.js';

/** A line that a person marked on the photo. */
export interface MarkedSpan {
  /** One end, in pixels of the photo. */
  readonly from: Point;
  /** The other. */
  readonly to: Point;
  /** Its real length as given, or null where courses were counted on it. */
  readonly length: RealMm | null;
  /** By how much the measurement disagrees with that length in per cent, or null for one span. */
  readonly residualPercent: number | null;
  /** How many courses were counted on it, or null. */
  readonly courses: number | null;
  /** Whether the measurement rests on it; not where it contradicts the others. */
  readonly used: boolean;
}

/** What an overlay shows. */
export interface OverlayContent {
  /** Of the photo, or null where only joints are known of it. */
  readonly measurement: Measurement | null;
  /** The joints it rests on, or null where none were found. */
  readonly joints: FoundJoints | null;
  /** The lines it rests on. */
  readonly spans: readonly MarkedSpan[];
  /** The corners of the rectangle it rests on, in order round it, or null. */
  readonly corners: readonly [Point, Point, Point, Point] | null;
}
