import type { PerAxis } from '../../../surface/measurement.js';
import type { RaisedOutline } from '../draw-edges.js';
import type { BoundedArea } from '../face-loops.js';

/** Sizes of a section in one unit, those that its profile takes. */
export interface SectionSizes {
  /** From its top to its foot. */
  readonly depth: number;
  /** From front to back, over its flanges; null where nobody says. */
  readonly width: number | null;
  /** Thickness of the web, or null. */
  readonly web: number | null;
  /** Thickness of a flange, or of a leg; null where it has none. */
  readonly flange: number | null;
  /** Radius of its rounded corners, or null. */
  readonly root: number | null;
  /** Depth of the legs that join flange plates to a web, or null. */
  readonly leg: number | null;
  /** Width of a board, or null. */
  readonly board: number | null;
  /** Width of what goes round a frame or a door, or null. */
  readonly rail: number | null;
  /** Width of what parts its panes, or null. */
  readonly bar: number | null;
  /** Height of a block, or null. */
  readonly block: number | null;
  /** How far it stands out from what lies round it, or, sunk, how deep it lies; or null. */
  readonly rise: number | null;
}

/** A size beside the depth. */
export type SizeName = Exclude<keyof SectionSizes, 'depth'>;

/** Where two faces meet, level from end to end. */
export interface ProfileEdge {
  /** What it is, in words. */
  readonly name: string;
  /** From the top. */
  readonly at: number;
  /** Where the face that is seen edge on looks to. */
  readonly faces: 'up' | 'down';
  /** On which side of the edge its line lies. */
  readonly side: 'above' | 'below';
  /** The thickness that its line may take, where it lies within a flange; null where within a web. */
  readonly room: number | null;
  /** How far it stands out over what its line lies on: it casts a shadow as long. */
  readonly overhang: number;
  /** The size that parts it from the edge above it; unless told, the depth. */
  readonly partedBy?: SizeName;
}

/** A rounded corner. */
export interface ProfileFillet {
  /** Where it is steepest, from the top. */
  readonly at: number;
  /** Where it has come round to face whoever looks. */
  readonly to: number;
  /** Where its steepest part looks to. */
  readonly faces: 'up' | 'down';
}

/** From top to foot. */
export interface Stretch {
  /** Its top. */
  readonly y0: number;
  /** Its foot. */
  readonly y1: number;
}

/** Something from end to end that stands out over what it lies on. */
export interface StandingStrip extends Stretch {
  /** What it is, in words: `flanges`. */
  readonly name: string;
  /** Of what lies one over another from the web out, which: 1 lies on the web. */
  readonly level: number;
  /** How far it stands out over the web; 0 where nobody says. */
  readonly out: number;
}

/** A section as it is seen from the side. */
export interface ProfileShape {
  /** From the top to the foot. */
  readonly edges: readonly ProfileEdge[];
  /** What lies deeper than the flanges: where several overlap, deeper still. */
  readonly recesses: readonly Stretch[];
  /** Its rounded corners. */
  readonly fillets: readonly ProfileFillet[];
  /** What stiffeners stand on, or null where there is no room for any. */
  readonly web: Stretch | null;
  /** What splices lie on: the web where nothing else lies on it. */
  readonly plain: Stretch | null;
  /**
   * Place rows of rivets.
   *
   * @param head - Diameter of a rivet's head.
   * @returns How far each row lies from the top; none where no rivets are usual.
   */
  readonly rivetRows: (head: number) => readonly number[];
  /** Boards one under the other, which end in butt joints; none unless told. */
  readonly boards?: readonly Stretch[];
  /** What stands out over the web or the stem; none unless told. */
  readonly stands?: readonly StandingStrip[];
}

/** Something of any outline that stands out over what it lies on. */
export interface StandingArea extends BoundedArea {
  /** What it is, in words: `panels`. */
  readonly name: string;
  /** How far it stands out. */
  readonly out: number;
  /** Whether it is as large as the whole piece: then it stands out only where something round that is shown. */
  readonly isWhole: boolean;
  /** Whether what stands out is all round it, and it lies deeper. */
  readonly isCutOut: boolean;
}

/** What is seen of something that is no section: its outline, and what in it stands out or lies deeper. */
export interface Figure {
  /** Closed lines of points x, y, x, y… from its top left corner, holes and all; null for a rectangle. */
  readonly outline: BoundedArea | null;
  /** In the order in which they are drawn. */
  readonly faces: readonly RaisedOutline[];
  /** What stands out, each on those before it. */
  readonly stands: readonly StandingArea[];
}

/** What a figure is made from. */
export interface FigureSizes {
  /** Its sizes. */
  readonly sizes: SectionSizes;
  /** From left to right. */
  readonly length: number;
  /** How many panes, from left to right and from top to foot. */
  readonly panes: PerAxis<number>;
  /** A shape of its own, from its top left corner; or null. */
  readonly shape: BoundedArea | null;
  /** Whether it lies deeper than what is round it. */
  readonly isSunk: boolean;
  /** How thick the card is that it is cut from, mm: nothing is narrower; null where none is cut. */
  readonly card: number | null;
}

/** What kind of section, or of other work. */
export type ProfileId =
  | 'i'
  | 'channel'
  | 'angle'
  | 'tee'
  | 'plate'
  | 'box'
  | 'plate-girder'
  | 'beam'
  | 'planks'
  | 'weatherboard'
  | 'sill'
  | 'string-course'
  | 'panel'
  | 'door'
  | 'frame'
  | 'quoins';

/** A kind of section. */
export interface Profile {
  /** Unlike any other. */
  readonly id: ProfileId;
  /** What it is. */
  readonly name: string;
  /** Sizes that it cannot do without. */
  readonly needs: readonly SizeName[];
  /** Sizes that it may have. */
  readonly takes: readonly SizeName[];
  /**
   * Say what is seen of it.
   *
   * @param sizes - In mm of paper, flanges wide enough for their lines.
   * @returns Its edges and faces.
   */
  readonly shape: (sizes: SectionSizes) => ProfileShape;
  /**
   * Say what is seen of what is no section.
   *
   * @param sizes - In mm of paper.
   * @returns Its outline, and what of it stands out.
   */
  readonly figure?: (sizes: FigureSizes) => Figure;
  /** What sizes it takes where nobody says, mm of the real thing: common practice, no source. */
  readonly usual?: Partial<Record<SizeName, number>>;
}
