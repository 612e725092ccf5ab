export type { Outcome } from './errors/outcome.js';
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
export type { CourseReference, CourseUnit } from './catalogue/course-reference.js';
export { findCourse } from './catalogue/find-course.js';
export { findScale, type FindScaleOptions, type NamedScale } from './catalogue/find-scale.js';
export { findSection, type SectionReference } from './catalogue/find-section.js';
export { nearFormats } from './catalogue/near-formats.js';
export type { ScaleRegion } from './catalogue/scale-entry.js';
export { type CatalogueEntry, type CatalogueKind, searchCatalogue } from './catalogue/search.js';

// raster
export { createRaster, type Raster } from './raster/raster.js';
