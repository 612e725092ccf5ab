import type { Outcome } from '../../errors/outcome.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Lattice, Measurement, PerAxis } from '../../surface/measurement.js';
import type { Dpi } from '../../units/units.js';
import type { MeasureRefusal } from '../measure/find-measurement.js';
import type { JobOptions } from '../job-options.js';
import type { MakeTileOptions, PrintTile, TileRefusal } from './make-tile.js';
import type { MeasuredReduced } from '../measure/measure-reduced.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** How a photo becomes a surface that covers any part. */
export interface MakeSurfaceOptions extends ReferenceOptions, JobOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Print resolution. */
  readonly dpi: Dpi;
  /** Whether slow changes of light are taken out. */
  readonly even: boolean;
  /** How the tile's ends are joined. */
  readonly method: MakeTileOptions['method'];
  /** Along which axis alone it is mended: across it, it is taken to meet itself. Both unless told. */
  readonly mendAxis?: 'x' | 'y';
}

/** A photo at print resolution that repeats. */
export interface MadeSurface {
  /** The photo as it was measured. */
  readonly photo: MeasuredReduced['photo'];
  /** How big it is. */
  readonly measurement: Measurement;
  /** Where its joints lie in the level picture, or null where it has none. */
  readonly lattice: Lattice | null;
  /** Printed dots to a pixel of that. */
  readonly factor: PerAxis<number>;
  /** What repeats. */
  readonly made: PrintTile;
}

/** Why a photo makes no surface. */
export type SurfaceRefusal = MeasureRefusal | TileRefusal | 'scale-doubtful';

/** Brings a surface: from its photo, or from where it was kept. */
export type TakeSurface = (
  path: string,
  options: MakeSurfaceOptions,
) => Promise<Outcome<MadeSurface, SurfaceRefusal>>;
