import type { Point } from '../units/parse-point.js';

/** Two points of the upright photo, in pixels from its top left corner. */
export type Span = readonly [from: Point, to: Point];
