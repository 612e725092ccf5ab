import type { ReliefMark } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { BoundedArea } from './face-loops.js';
import type { CutCard } from './cut-cards.js';
import type { EdgeLine } from './lay-lines.js';

/** A piece drawn in relief. */
export interface DrawnRelief {
  /** What lies over the ground, in mm of paper from the top left corner of what is drawn. */
  readonly marks: readonly ReliefMark[];
  /** What it measures, mm of paper; a bent piece with its bleed. */
  readonly size: PerAxis<number>;
  /** What bounds it, from that corner; null where that is a rectangle. */
  readonly outline: (BoundedArea & { readonly isBled: boolean }) | null;
  /** Where that corner lies in the drawing that a bent piece follows, mm. */
  readonly at: PerAxis<number>;
  /** From end to end, mm of paper. */
  readonly length: number;
  /**
   * Find where something of it is.
   *
   * @param at - How far along it.
   * @param y - From its top, plates on its flanges included.
   * @returns The point, mm of paper from the corner.
   */
  readonly place: (at: number, y: number) => PerAxis<number>;
  /** The lines of level edges, from the top to the foot. */
  readonly lines: readonly EdgeLine[];
  /** How thick its flanges are drawn, mm of paper; null where it has none. */
  readonly flange: number | null;
  /** Layers of card upon the whole, from the back to the front; none unless asked for. */
  readonly cards: readonly CutCard[];
  /** How many rivets it has. */
  readonly rivets: number;
  /** How many stiffeners. */
  readonly stiffeners: number;
  /** How many joints its boards end in. */
  readonly joints: number;
}
