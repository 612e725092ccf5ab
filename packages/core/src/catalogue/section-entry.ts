/** A rolled section with two flanges. All lengths in mm. */
export interface SectionEntry {
  /** Unlike any other, as handbooks print it: `UB 203x133x25`. */
  readonly name: string;
  /** Over the flanges. */
  readonly depth: number;
  /** Of the flange. */
  readonly width: number;
  /** Thickness of the web. */
  readonly web: number;
  /** Thickness of the flange; of a taper flange, its mean. */
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
