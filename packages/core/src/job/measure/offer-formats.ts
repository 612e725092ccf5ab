import type { CourseReference } from '../../catalogue/course-reference.js';
import { ownCourses } from '../../catalogue/own-courses.js';
import type { FormatRegion } from '../../catalogue/region-of.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import { expandUncertainty } from '../../measure/given/expand-uncertainty.js';
import {
  type FormatJudgement,
  judgeFormats,
  type LikelyFormat,
} from '../../measure/given/judge-formats.js';
import { toShape } from '../../measure/given/to-shape.js';
import { type UnitCourses, weighFormat } from '../../measure/given/weigh-format.js';
import type { Photo } from '../../read/read-photo.js';
import { findCopies } from '../../seam/copies/find-copies.js';
import type { CourseAxis, Measurement, PerAxis, Rectification } from '../../surface/measurement.js';
import { realMm } from '../../units/units.js';
import { findMeasurement, type FoundMeasurement, type MeasureRefusal } from './find-measurement.js';
import { beginStep, type JobOptions } from '../job-options.js';
import type { LookOptions } from './measure-given.js';
import type { ReferenceOptions } from './reference-options.js';
import { type PhotoReport, reportPhoto } from './report-photo.js';
import { type MeasurementReport, reportMeasurement } from './report-measurement.js';
import { toFigures } from '../to-figures.js';
import { warnOfCopies } from './warn-of-copies.js';
import { writeOverlay } from './write-overlay.js';

/** What a photo would measure if its courses were of one format. */
export interface OfferedFormat {
  /** The id of the catalogue or beside it, to be named as its course. */
  readonly id: string;
  /** As people say it. */
  readonly name: string;
  /** 0 to 1, given that courses and bricks were found rightly. */
  readonly probability: number;
  /** Bed joint to bed joint. */
  readonly courseMm: number;
  /** Real millimetres per pixel of the upright photo; where rectified, of the level picture. */
  readonly mmPerPx: PerAxis<number>;
  /** Expanded uncertainty (k = 2) of `mmPerPx`. */
  readonly uncertaintyPercent: number;
  /** What the whole photo shows of the real thing. */
  readonly surfaceSizeMm: MeasurementReport['surfaceSizeMm'];
}

/** The courses of a photo that nobody named, and what they could be. Nothing is measured by it. */
export interface OfferedFormats {
  /** The photo, upright. */
  readonly photo: PhotoReport;
  /** Tells it from a measurement. */
  readonly method: 'formats';
  /** None. */
  readonly reference: null;
  /** Which way its courses are counted, or null where none were found. */
  readonly axis: CourseAxis | null;
  /** Bed joint to bed joint in the level picture, or null where none were found. */
  readonly coursePeriodPx: number | null;
  /** One brick with its joint along the course, or null where none was found. */
  readonly brickPeriodPx: number | null;
  /** The bond's catalogue id, or null where it could not be told. */
  readonly bond: string | null;
  /** Not known until a format is named. */
  readonly mmPerPx: null;
  /** 0 to 1: that the courses were found rightly. */
  readonly confidence: number;
  /** How to make the photo level, or null where it is taken as level. */
  readonly rectification: Rectification | null;
  /** Likeliest first; empty where no brick was found. */
  readonly formats: readonly OfferedFormat[];
  /** That it is none of the catalogue, or null where no brick was found. */
  readonly otherProbability: number | null;
  /** The picture written of the joints found, where that was asked. */
  readonly overlay?: string;
  /** The page written to point at the photo with, where that was asked. */
  readonly page?: string;
}

/** What {@link offerFormats} may be told. */
export interface OfferFormatsOptions extends UnitLook {
  /** Where the wall stands. */
  readonly region?: FormatRegion;
  /** A picture to write that shows the joints found. */
  readonly overlay?: string;
}

// A course of 1 mm, of which each format is so many.
const unitCourse: CourseReference = {
  id: 'own',
  name: 'course',
  size: realMm(1),
  uncertainty: 0,
  source: 'none',
  brick: null,
};

/**
 * Find the courses of a photo that nobody named, and offer the formats that they could be of.
 *
 * @param photo - As read.
 * @param options - What else is known.
 * @returns The formats, or why there are no courses.
 * @throws TextureError when a file does not allow it.
 */
export async function offerFormats(
  photo: Photo,
  options: OfferFormatsOptions = {},
): Promise<Outcome<OfferedFormats, MeasureRefusal>> {
  const { overlay } = options;
  const listed = overlay !== undefined;
  const found = await measureUnit(photo, { ...options, listed });
  if (!found.ok) return found;
  const { measurement, aspect = 0, copies = findCopies(photo.raster) } = found.value;
  const judgement = judgeUnit(measurement, options);
  if (overlay !== undefined) {
    beginStep('writing', options);
    await writeOverlay(overlay, photo, { measurement: null, joints: found.value.joints });
  }
  const report = reportMeasurement(measurement, photo);
  return {
    ok: true,
    value: {
      photo: reportPhoto(photo),
      method: 'formats',
      reference: null,
      axis: report.axis,
      coursePeriodPx: report.coursePeriodPx,
      brickPeriodPx: report.brickPeriodPx,
      ...offerAll(judgement, { measurement, aspect }, photo),
      mmPerPx: null,
      confidence: report.confidence,
      rectification: report.rectification,
      ...(overlay !== undefined && { overlay }),
    },
    warnings: [
      ...photo.warnings,
      ...found.warnings,
      ...warnOfCopies(copies, photo),
      ...explain(judgement),
    ],
  };
}

/**
 * Say of a photo without courses that they could be nothing.
 *
 * @param photo - As read.
 * @returns An offer of none.
 */
export function noFormats(photo: Photo): OfferedFormats {
  return {
    photo: reportPhoto(photo),
    method: 'formats',
    reference: null,
    axis: null,
    coursePeriodPx: null,
    brickPeriodPx: null,
    bond: null,
    mmPerPx: null,
    confidence: 0,
    rectification: null,
    formats: [],
    otherProbability: null,
  };
}

/** How {@link measureUnit} looks at a photo. */
export type UnitLook = JobOptions &
  Pick<ReferenceOptions, 'axis' | 'straighten' | 'focal' | 'references'> &
  Pick<LookOptions, 'listed'>;

/**
 * Measure a photo by its courses, whatever they are.
 *
 * @param photo - As read.
 * @param options - How it is looked at.
 * @returns The measurement if each were 1 mm high, or why there are no courses.
 * @throws TextureError when a file does not allow it.
 */
export async function measureUnit(
  photo: Photo,
  options: UnitLook,
): Promise<Outcome<FoundMeasurement, MeasureRefusal>> {
  return findMeasurement(photo, { ...options, course: unitCourse });
}

/**
 * Judge what courses that were found could be.
 *
 * @param unit - Measured as {@link measureUnit} does.
 * @param options - Where the wall stands, and references beside the catalogue's, where that is known.
 * @returns The judgement, or null where no brick was found.
 */
export function judgeUnit(
  unit: Measurement,
  options: Pick<OfferFormatsOptions, 'region' | 'references'>,
): FormatJudgement | null {
  const { lattice, budget } = unit;
  if (lattice === null) return null;
  const shape = toShape(lattice, expandUncertainty(budget) / 200);
  const { region, references } = options;
  const own = ownCourses(references);
  return shape && judgeFormats(shape, region === undefined ? { own } : { region, own });
}

function offerAll(
  judgement: FormatJudgement | null,
  unit: UnitCourses,
  photo: Photo,
): Pick<OfferedFormats, 'bond' | 'formats' | 'otherProbability'> {
  if (judgement === null) {
    return { bond: unit.measurement.lattice?.bond ?? null, formats: [], otherProbability: null };
  }
  return {
    bond: judgement.bond,
    formats: judgement.formats.map((format) => offer(format, unit, photo)),
    otherProbability: toFigures(judgement.other, 2),
  };
}

function offer(
  { reference, probability }: LikelyFormat,
  unit: UnitCourses,
  photo: Photo,
): OfferedFormat {
  const { id, name, size } = reference;
  const report = reportMeasurement(weighFormat(unit, reference), photo);
  return {
    id,
    name,
    probability: toFigures(probability, 2),
    courseMm: toFigures(size, 6),
    mmPerPx: report.mmPerPx,
    uncertaintyPercent: report.uncertaintyPercent,
    surfaceSizeMm: report.surfaceSizeMm,
  };
}

function explain(judgement: FormatJudgement | null): Warning[] {
  if (judgement === null) {
    const message =
      'no brick length was found, and a course alone fits any format: name what the courses are, or give a span of known length';
    return [{ code: 'format-unknown', message }];
  }
  const { tied } = judgement;
  if (tied.length === 0) return [];
  const listed = `${tied.slice(0, -1).join(', ')} and ${tied.at(-1) ?? ''}`;
  return [{ code: 'formats-tied', message: `${listed} cannot be told apart by their shape` }];
}
