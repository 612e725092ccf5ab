/** Where a scale's name is used. */
export type ScaleRegion = 'EU' | 'UK' | 'US' | 'JP' | 'FR';

/** A model scale as its standard or its users name it. */
export interface ScaleEntry {
  /** Unlike any other: `N-UK`. */
  readonly name: string;
  /** What people call it for short, region or no region: `N`. */
  readonly short: readonly string[];
  /** What they call it only where the region is known: `HO` for Japan's 1:80. */
  readonly inRegion: readonly string[];
  /** Where that is so; null for a name used anywhere. */
  readonly region: ScaleRegion | null;
  /** Real over model. */
  readonly ratio: number;
  /** How the source defines it: `4 mm = 1 ft`. */
  readonly definition: string;
  /** Gauge of standard track, mm, or null where the source gives none. */
  readonly gaugeMm: number | null;
  /** Where that comes from. */
  readonly source: string;
}
