// What runs anywhere, a browser included.
export * from './pure.js';

// job
export { buildJob, type BuildJobOptions, type BuildRefusal } from './job/build/build-job.js';
export type { BuildEvent, BuiltJob, BuiltStep } from './job/build/build-report.js';
export { cleanJob, type CleanedJob } from './job/build/clean-job.js';
export { jobSchema } from './job/build/job-schema.js';
export type { PlanBuildOptions } from './job/build/plan-build.js';
export type { StepReport } from './job/build/step-record.js';
export { type JobState, lookAtJob, waitForChange } from './job/build/watch-job.js';
export type { FileState } from './read/hash-file.js';
export type { RepeatAxis } from './job/inspect/draw-seams.js';
export type { LightReport } from './job/mend/even-picture.js';
export {
  dressDrawing,
  type DressDrawingOptions,
  type DressedDrawing,
  type DressRefusal,
  type Paint,
  type SlimFirst,
} from './job/dress/dress-drawing.js';
export {
  type ExtendedPhoto,
  type ExtendedPhotos,
  extendPhotos,
  type ExtendPhotosOptions,
} from './job/extend/extend-photos.js';
export type { ExtendRefusal, LayExtensionOptions } from './job/extend/lay-extension.js';
export type { ExtendSizeOptions } from './job/extend/extend-wish.js';
export type { FilledPhoto } from './job/fill/fill-surface.js';
export type { FillPhotoOptions } from './job/fill/fill-options.js';
export { fillPhoto } from './job/fill/fill-photo.js';
export type { MeasureRefusal } from './job/measure/find-measurement.js';
export type { GivenRefusal } from './job/measure/measure-given.js';
export {
  type InspectedPhoto,
  inspectPhoto,
  type InspectPhotoOptions,
} from './job/inspect/inspect-photo.js';
export { makeRelief } from './job/relief/make-relief.js';
export type { MadeRelief, ReliefLayer, ReliefLine } from './job/relief/report-relief.js';
export type { StringCourse, WallRelief, WallReliefReport } from './job/fill/wall-relief-options.js';
export type {
  MakeReliefOptions,
  ReliefFittings,
  ReliefJoinery,
  ReliefLayers,
  ReliefSizes,
} from './job/relief/relief-options.js';
export type { JobOptions, JobStep } from './job/job-options.js';
export type { TileRefusal } from './job/surface/make-tile.js';
export type { MeasuredPhoto, MeasurePhotoOptions } from './job/measure/measure-known.js';
export { measurePhoto, type NamedReference } from './job/measure/measure-photo.js';
export {
  measurePhotos,
  type MeasurePhotosOptions,
  type PhotoAnswer,
} from './job/measure/measure-photos.js';
export type { CalmReport } from './job/mend/calm-mended.js';
export { type MendedPhoto, mendPhoto, type MendPhotoOptions } from './job/mend/mend-photo.js';
export type { OfferedFormat, OfferedFormats } from './job/measure/offer-formats.js';
export type { PlanRefusal } from './job/extend/plan-extension.js';
export type { Corner, NextWall } from './job/fill/next-wall.js';
export type { PartOptions } from './job/fill/plan-part.js';
export {
  type SheetedPart,
  type SheetedParts,
  sheetParts,
  type SheetPartsOptions,
  type SheetRefusal,
} from './job/sheet/sheet-parts.js';
export type { SurfaceOptions } from './job/open/open-surface.js';
export type { ReferenceOptions } from './job/measure/reference-options.js';
export type { InspectedSeamReport } from './job/inspect/report-inspected-seam.js';
export type { OddReport } from './job/inspect/report-odd.js';
export type { MeasurementReport } from './job/measure/report-measurement.js';
export type { PhotoReport } from './job/measure/report-photo.js';
export type { SpanReport } from './job/measure/report-span.js';
export type { WorkRefusal } from './job/extend/same-work.js';
export type { OutlineReport, OutlineSource } from './job/fill/read-outline.js';
export type { ScaleReport } from './job/measure/report-scale.js';
export {
  type ScaledLength,
  scaleLength,
  type ScaleLengthOptions,
} from './job/measure/scale-length.js';
export { type ScaledPhoto, scalePhoto, type ScalePhotoOptions } from './job/surface/scale-photo.js';
export { type FoundReference, searchReference } from './job/measure/search-reference.js';
export type { DressRelief, DressReliefWish } from './job/dress/dress-relief-options.js';
export { parseDressRelief } from './job/dress/parse-dress-relief.js';
export type { DressWeather } from './job/dress/dress-weather.js';
export type {
  DressedOutline,
  DressedSurface,
  SurfacePictureReport,
} from './job/dress/report-dress.js';
export type { SurfaceRefusal } from './job/surface/made-surface.js';
export type { KeyRefusal } from './job/dress/refuse-keys.js';
export type { MissingPicture, SlimmedImage } from './job/slim/report-slim.js';
export {
  slimDrawing,
  type SlimDrawingOptions,
  type SlimmedDrawing,
} from './job/slim/slim-drawing.js';
export type { WeatherOptions } from './job/weather/weather-options.js';
export {
  type WeatheredPhoto,
  weatherPhoto,
  type WeatherPhotoOptions,
} from './job/weather/weather-photo.js';
export type { WeatherReport } from './job/weather/report-weather.js';

export {
  type MadeTestStrip,
  makeTestStrip,
  type MakeTestStripOptions,
} from './job/print/make-test-strip.js';
export type { PrintingOptions } from './job/print/printing-options.js';
export type { PrintingReport } from './job/print/open-printing.js';
export {
  type LearntPrinter,
  readTestStrip,
  type ReadTestStripOptions,
} from './job/print/read-test-strip.js';

export {
  addReference,
  type KeptReference,
  removeReference,
} from './job/settings/keep-reference.js';
export { type ReferenceFile, readReferences } from './job/settings/read-references.js';
export { configSchema } from './job/settings/config-form.js';
export { openSettings } from './job/settings/open-settings.js';
export { referenceSchema } from './job/settings/reference-form.js';
export {
  noSettings,
  type Setting,
  type SettingName,
  type ToldSetting,
  type Settings,
} from './job/settings/settings.js';
export type { UsedSetting } from './job/settings/settings-used.js';

export type { LimitName, LimitOptions } from './limits/limits.js';

// read
export { listPhotos } from './read/list-photos.js';
export type { PictureFormat } from './read/identify-format.js';
export { type Photo, readPhoto, type ReadPhotoOptions } from './read/read-photo.js';
export { type FoundSidecar, readSidecar, type SidecarOwner } from './read/read-sidecar.js';

// write
export { checkOutput, type CheckOutputOptions, type OutputTarget } from './write/check-output.js';
export { writePicture, type WritePictureOptions } from './write/write-picture.js';
export type { WrittenRows } from './write/written-rows.js';
export { type MeasuredFile, writeSidecar } from './write/write-sidecar.js';
