// errors
export type { Failing, Outcome } from './errors/outcome.js';
export {
  TextureError,
  type TextureErrorCode,
  type TextureErrorOptions,
} from './errors/texture-error.js';
export { showPath } from './errors/show-path.js';
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
export { inDigits, uncertaintyInWords } from './units/in-digits.js';
export { parseDpi } from './units/parse-dpi.js';
export { parseNote } from './units/parse-note.js';
export { parsePrintLength, parseRealLength } from './units/parse-length.js';
export { parsePoint, type Point } from './units/parse-point.js';
export { parsePrintSize, parseRealSize, type Size } from './units/parse-size.js';
export { parseStatedLength, type StatedLength } from './units/parse-stated-length.js';

// catalogue
export { bondRepeat, type BondFormat, type BondRepeat } from './catalogue/bond-repeat.js';
export type { Bond, BondCourse, Face } from './catalogue/bonds/bond.js';
export { bonds } from './catalogue/bonds/index.js';
export type { CourseReference, CourseUnit } from './catalogue/course-reference.js';
export { checkOwn, parseOwnId } from './catalogue/check-own.js';
export { ownCourses } from './catalogue/own-courses.js';
export type { OwnKind, OwnReference } from './catalogue/own-reference.js';
export { findBrick } from './catalogue/find-brick.js';
export { findCourse } from './catalogue/find-course.js';
export { findPaper, type Paper } from './catalogue/find-paper.js';
export { findScale, type FindScaleOptions, type NamedScale } from './catalogue/find-scale.js';
export { findSection, type SectionReference } from './catalogue/find-section.js';
export type { FormatRegion } from './catalogue/region-of.js';
export type { ScaleRegion } from './catalogue/scale-entry.js';
export { type CatalogueEntry, type CatalogueKind, searchCatalogue } from './catalogue/search.js';

// colour
export { blend, type BlendMode } from './colour/blend.js';
export { colourDifference, type LabColour } from './colour/colour-difference.js';

// raster
export type { Again, LaidAlong } from './raster/list-again.js';
export { cropRaster, type WholeWindow } from './raster/crop-raster.js';
export { meanLight } from './raster/mean-light.js';
export { createRaster, type Raster } from './raster/raster.js';
export { resampleRaster, type ResampleOptions } from './raster/resample-raster.js';
export type { FinishPage, FinishRun, MakeFinish, RowFinish } from './raster/row-finish.js';
export { type RowSource, toRows } from './raster/row-source.js';

// numeric
export { applyHomography, type Homography } from './numeric/homography.js';
export { invertHomography } from './numeric/invert-homography.js';
export { type PlacePair, solveHomography } from './numeric/solve-homography.js';
export { multiplyHomographies } from './numeric/multiply-homographies.js';

// measure
export type {
  GivenCorners,
  MarkedCorners,
  MarkedReference,
  OtherReference,
} from './measure/given/given-reference.js';
export { toKnownSpan } from './measure/given/known-span.js';
export {
  type CornersRefusal,
  type MeasuredCorners,
  measureCorners,
} from './measure/given/measure-corners.js';
export {
  type MeasuredMarked,
  measureMarked,
  type MeasureMarkedOptions,
} from './measure/given/measure-marked.js';
export type { PointedPhoto, PointedStart, PointedWay } from './measure/given/pointed-photo.js';
export { type UnitCourses, weighFormat } from './measure/given/weigh-format.js';
export { type CourseFit, findCourses, type FindCoursesOptions } from './measure/find-courses.js';
export {
  type CoursedShape,
  type FormatJudgement,
  judgeFormats,
  type JudgeFormatsOptions,
  type LikelyFormat,
} from './measure/given/judge-formats.js';
export {
  type CountedCourses,
  type MeasuredCount,
  measureCount,
  type MeasureCountOptions,
} from './measure/given/measure-count.js';
export {
  type MeasureCoursesOptions,
  type MeasuredCourses,
  measureCourses,
} from './measure/given/measure-courses.js';
export type { Straighten } from './measure/slant/judge-stand.js';
export type { ScaleSpread } from './measure/slant/spread-stand.js';
export { findFocalLength, type FocalLength, fromEquivalent } from './measure/find-focal-length.js';
export { type KnownDistance, measureDistance } from './measure/given/measure-distance.js';
export {
  type KnownSpan,
  type MeasuredSpans,
  measureSpans,
  type MeasureSpansOptions,
  type SpanResidual,
  type SpansRefusal,
} from './measure/given/measure-spans.js';

export {
  type KnownRectangle,
  measureRectangle,
  type RectangleRefusal,
  type RectangleView,
} from './measure/given/measure-rectangle.js';
export type { Corners } from './measure/rectangle/sort-corners.js';
export type { JudgedAspect } from './measure/rectangle/judge-aspect.js';

// rectify
export { largestWindow, type LevelRectangle } from './rectify/largest-window.js';
export { straightenRaster, type StraightenOptions } from './rectify/straighten-raster.js';

// overlay
export type { MarkedSpan, OverlayContent } from './overlay/overlay-content.js';
export type { OverlayOptions } from './overlay/plan-page.js';
export { renderOverlay } from './overlay/render-overlay.js';

// even
export { type EvenedPicture, evenLight, type EvenOptions } from './even/even-light.js';
export type { JointRows } from './even/cell-light.js';

// scale
export {
  judgeResolution,
  type PrintOptions,
  type ResolutionVerdict,
} from './scale/judge-resolution.js';
export { toPrintResolution, type ToPrintOptions } from './scale/to-print-resolution.js';

// seam
export {
  type CalmedPlace,
  type CalmedTile,
  type CalmOptions,
  calmTile,
} from './seam/calm/calm-tile.js';
export { type AxisCopies, findCopies } from './seam/copies/find-copies.js';
export {
  type ExtendedTile,
  type ExtendMethod,
  type ExtendOptions,
  type ExtendSource,
  extendTile,
} from './seam/extend/extend-tile.js';
export { findOdd } from './seam/odd/find-odd.js';
export type { OddPlace, OddWay } from './seam/odd/to-odd-place.js';
export {
  type InspectedSeam,
  inspectSeams,
  type Seam,
  type SeamInspection,
} from './seam/inspect/inspect-seams.js';
export type { JudgedJoin } from './seam/mend/choose-join.js';
export type { BondPeriod } from './seam/mend/find-uprights.js';
export type { HealedBricks } from './seam/mend/heal-bricks.js';
export type { JoinMethod } from './seam/mend/join-overlap.js';
export type { JoinScore } from './seam/mend/judge-join.js';
export {
  matchRepeat,
  type MatchRepeatOptions,
  type RepeatMatch,
} from './seam/mend/match-repeat.js';
export { type MendMethod, type MendOptions, mendTile, type Tile } from './seam/mend/mend-tile.js';
export type { Joints } from './seam/mend/see-joints.js';

// drawing
export { type PaintKey, parsePaintKey } from './drawing/dress/paint-key.js';

// finish
export { parseLight, type LightSide } from './finish/relief/light-side.js';
export { parseProfile } from './finish/relief/parse-profile.js';
export type { ProfileId, SectionSizes } from './finish/relief/profiles/profile.js';
export { changeColours, type ColourTable } from './finish/print/colour-table.js';
export { drawStrip } from './finish/print/draw-strip.js';
export { learnPrinter } from './finish/print/learn-printer.js';
export {
  measureStrip,
  type MeasuredStrip,
  type SeenColours,
} from './finish/print/measure-strip.js';
export type { PlacedStrip } from './finish/print/place-strip.js';
export type { CameraCurve } from './finish/print/tell-curve.js';
export { NewerPrinter, parsePrinter } from './finish/print/parse-printer.js';
export { type PrintTone, toPrintTable } from './finish/print/print-tone.js';
export { type PrinterProfile, toPrinterJson } from './finish/print/printer-profile.js';
export type { StripRefusal } from './finish/print/strip-refusals.js';
export type { BrickBox, SeenBricks } from './finish/weather/lay-bricks.js';
export type { WeatherPage } from './finish/weather/paint-rows.js';
export { parseFacing, parsePreset } from './finish/weather/parse-weather.js';
export type { Ledge, WallPoint } from './finish/weather/site.js';
export type {
  Facing,
  WeatherName,
  WeatherPreset,
  WeatherStrengths,
  WeatherWish,
} from './finish/weather/strengths.js';
export type { WeatherWallOptions } from './finish/weather/given-site.js';
export type { WeatherWall } from './finish/weather/ready-weather.js';
export { weatherWall, type WeatheredRows } from './finish/weather/weather-wall.js';

// fill
export type { PageWindow } from './fill/copy-rows.js';
export type { WallRows, WallWindow } from './fill/finish-rows.js';
export { cutRows, type ShapeToFill } from './fill/cut-rows.js';
export { type Fill, fillRows, type PartToFill } from './fill/fill-rows.js';
export type { FillRule, PartOutline } from './fill/outline/part-outline.js';
export {
  type AxisPlan,
  type AxisToPlan,
  planTile,
  type PlanTileOptions,
} from './fill/plan-tile.js';
export { repeatTile } from './fill/repeat-tile.js';
export { roundPeriod, type RoundPeriodOptions, type WholePeriod } from './fill/round-period.js';

// surface
export type { FoundBed, FoundJoints, FoundPerpend, LeftOut } from './surface/found-joints.js';
export { toLevelPoint, toPhotoPoint } from './surface/level-point.js';
export type {
  CourseAxis,
  Lattice,
  Measurement,
  MeasurementMethod,
  PerAxis,
  Rectification,
  Reference,
  UncertaintyPart,
  UncertaintySource,
} from './surface/measurement.js';
export type { PhotoExif } from './surface/photo-exif.js';
export type { Sidecar, SidecarPhoto } from './surface/sidecar.js';
export { sidecarPath } from './surface/sidecar-path.js';
export { toSidecarJson } from './surface/to-sidecar-json.js';
export { parseCorners, parseSpan } from './surface/parse-span.js';
export type { Span } from './surface/span.js';
