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

export { formatLength } from './units/format-length.js';
export { parseDpi } from './units/parse-dpi.js';
export { parsePrintLength, parseRealLength } from './units/parse-length.js';
export { parsePoint, type Point } from './units/parse-point.js';
export { parsePrintSize, parseRealSize, type Size } from './units/parse-size.js';

// catalogue
export { bondRepeat, type BondFormat, type BondRepeat } from './catalogue/bond-repeat.js';
export type { Bond, BondCourse, Face } from './catalogue/bonds/bond.js';
export { bonds } from './catalogue/bonds/index.js';
export {
  type CourseReference,
  type CourseUnit,
  findCourse,
  nearFormats,
} from './catalogue/find-course.js';
export { findScale, type FindScaleOptions, type NamedScale } from './catalogue/find-scale.js';
export type { ScaleRegion } from './catalogue/scale-entry.js';

// raster
export { createRaster, type Raster } from './raster/raster.js';

// measure
export { type CourseFit, findCourses } from './measure/find-courses.js';
export { type CountedCourses, measureCount } from './measure/measure-count.js';
export { measureCourses } from './measure/measure-courses.js';
export { type KnownSpan, measureSpan, type PictureSize } from './measure/measure-span.js';

// surface
export type {
  Lattice,
  Measurement,
  MeasurementMethod,
  PerAxis,
  Rectification,
  Reference,
} from './surface/measurement.js';
