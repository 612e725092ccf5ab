// errors
export type { Outcome } from './errors/outcome.js';
export {
  TextureError,
  type TextureErrorCode,
  type TextureErrorOptions,
} from './errors/texture-error.js';
export type { Warning, WarningCode } from './errors/warning.js';

// units
export {
  type Dpi,
  dpi,
  type ModelScale,
  modelScale,
  type PrintMm,
  printMm,
  type Px,
  px,
  type RealMm,
  realMm,
  toDots,
  toPrint,
  toReal,
} from './units/units.js';

// raster
export { createRaster, type Raster } from './raster/raster.js';

// surface
export type {
  Lattice,
  Measurement,
  MeasurementMethod,
  PerAxis,
  Rectification,
  Reference,
} from './surface/measurement.js';
