import type { PerAxis } from '../../surface/measurement.js';
import type { Bend } from './bend.js';
import type { BoundedArea } from './face-loops.js';
import type { LightSide } from './light-side.js';
import type { Profile, SectionSizes } from './profiles/profile.js';

/** Rows of rivets. All in mm of paper. */
export interface Rivets {
  /** From one to the next. */
  readonly pitch: number;
  /** Diameter of a head. */
  readonly head: number;
  /** Whether the user said how large heads are. */
  readonly isHeadTold: boolean;
}

/** Upright plates that stand on the web. All in mm of paper. */
export interface Stiffeners {
  /** From one to the next. */
  readonly pitch: number;
  /** As they are seen, edge on. */
  readonly thickness: number;
}

/** Plates that join two lengths of web. All in mm of paper. */
export interface Splices {
  /** Where the middle of each lies, from the left end. */
  readonly at: readonly number[];
  /** From side to side. */
  readonly width: number;
  /** Whether the user said how wide they are. */
  readonly isWidthTold: boolean;
}

/** Plates on both flanges, in the middle of the piece. All in mm of paper. */
export interface Covers {
  /** Of the plates of one flange, the longest and innermost first. */
  readonly lengths: readonly number[];
  /** Of each. */
  readonly thickness: number;
  /** The least that one is drawn: what prints as a line, or is cut from the card. */
  readonly least: number;
}

/** A piece to draw in relief. All in mm of paper. */
export interface ReliefPlan {
  /** What it is. */
  readonly profile: Profile;
  /** Its sizes as they are. */
  readonly sizes: SectionSizes;
  /** What says how deep it is, as the user knows it: `depth`. */
  readonly sizedBy: string;
  /** Real over model, for whoever is told of a size that would do. */
  readonly ratio: number;
  /** From end to end. */
  readonly length: number;
  /** What the middle of its depth is bent along, as long as it is; null where it is straight. */
  readonly bend: Bend | null;
  /** Picture past every side, to be cut away. */
  readonly bleed: number;
  /** How far past every side what reaches it goes on: over bleed, and over dots that a side only begins. */
  readonly margin: number;
  /** Where the light comes from. */
  readonly light: LightSide;
  /** 0, which leaves all as it is, to 1. */
  readonly strength: number;
  /** Rows of rivets, or null. */
  readonly rivets: Rivets | null;
  /** What stands on the web, or null. */
  readonly stiffeners: Stiffeners | null;
  /** What joins the web, or null. */
  readonly splices: Splices | null;
  /** What lies on the flanges, over its depth, or null. */
  readonly covers: Covers | null;
  /** How long boards are, mm of paper, or null. */
  readonly boardLength: number | null;
  /** Whether its boards stand, side by side. */
  readonly isUpright: boolean;
  /** How many panes a frame or a door has, from left to right and from top to foot. */
  readonly panes: PerAxis<number>;
  /** A shape of its own, from its top left corner; or null. */
  readonly shape: BoundedArea | null;
  /** Whether it lies deeper than what is round it. */
  readonly isSunk: boolean;
  /** How much of what is round it is shown, mm of paper. */
  readonly around: number;
  /** How thick the card is that its layers are cut from, mm: nothing of them is narrower; null without layers. */
  readonly card: number | null;
}
