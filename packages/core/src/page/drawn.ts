import type { Matrix } from '../numeric/matrix.js';

/** A step along a path, in its own units: `C` is a Bézier curve of three degrees, `Z` closes. */
export type PathStep =
  | readonly ['M' | 'L', x: number, y: number]
  | readonly ['C', x1: number, y1: number, x2: number, y2: number, x: number, y: number]
  | readonly ['Z'];

/** What bounds an area, and what of it is inside. */
export interface DrawnArea {
  /** Step by step. */
  readonly steps: readonly PathStep[];
  /** From its units to mm of the part. */
  readonly matrix: Matrix;
  /** What of it is inside. */
  readonly rule: 'nonzero' | 'evenodd';
}

/** A flat colour. */
export interface Ink {
  /** `#rrggbb` of sRGB. */
  readonly colour: string;
  /** From 0, clear, to 1. */
  readonly opacity: number;
}

/** A line along a path, in the path's units. */
export interface DrawnLine extends Ink {
  /** Its width. */
  readonly width: number;
  /** How it ends. */
  readonly cap: 'butt' | 'round' | 'square';
  /** How it goes round corners. */
  readonly join: 'miter' | 'round' | 'bevel';
  /** How far a corner may stick out, in widths. */
  readonly miterLimit: number;
  /** Lengths of dashes and gaps in turn; none for a line without. */
  readonly dashes: readonly number[];
  /** How far into them it begins. */
  readonly dashOffset: number;
}

/** A shape that is filled, lined, or both. */
export interface DrawnShape extends DrawnArea {
  /** Tells it from a picture. */
  readonly kind: 'shape';
  /** What fills it, or null. */
  readonly fill: Ink | null;
  /** Its line, or null. */
  readonly line: DrawnLine | null;
  /** Whether that lies under what fills it. */
  readonly lineFirst: boolean;
  /** It shows inside all of these. */
  readonly clips: readonly DrawnArea[];
}

/** A picture that is laid. */
interface DrawnPicture {
  /** Tells it from a shape. */
  readonly kind: 'picture';
  /** Which of the drawing's pictures, from 0. */
  readonly picture: number;
  /** From its own pixels to mm of the part. */
  readonly matrix: Matrix;
  /** It shows inside all of these. */
  readonly clips: readonly DrawnArea[];
}

/** What a drawing is made of. */
export type DrawnMark = DrawnShape | DrawnPicture;
