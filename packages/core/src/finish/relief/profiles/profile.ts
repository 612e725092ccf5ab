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
}

/** What kind of section. */
export type ProfileId = 'i' | 'channel' | 'angle' | 'tee' | 'plate' | 'box' | 'plate-girder';

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
}
