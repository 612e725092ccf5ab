/** A rolled section. All lengths in mm. */
export interface SectionEntry {
  /** What kind it is: two flanges and a web between them, two flanges at one side of a web, two legs, a flange and a stem. */
  readonly shape: 'i' | 'channel' | 'angle' | 'tee';
  /** Unlike any other, as handbooks print it: `UB 203x133x25`. */
  readonly name: string;
  /** Over the flanges; of an angle its longer leg. */
  readonly depth: number;
  /** Of the flange; of an angle its shorter leg. */
  readonly width: number;
  /** Thickness of the web or the stem; null of an angle. */
  readonly web: number | null;
  /** Thickness of the flange, or of a leg; of a taper flange, its mean. */
  readonly flange: number;
  /** Radius between web and flange, or null where the source gives none. */
  readonly root: number | null;
  /** Mass of one metre, kg, as published. */
  readonly kgPerM: number;
  /** Whether the flange's inner faces are parallel to its outer ones. */
  readonly flanges: 'parallel' | 'taper';
  /** Where the sizes come from. */
  readonly source: string;
}

/** A rolled section's row in a table: depth, width, web, flange and root radius in mm; kg/m. */
export type SectionSizes = readonly [
  depth: number,
  width: number,
  web: number,
  flange: number,
  root: number | null,
  kgPerM: number,
];
