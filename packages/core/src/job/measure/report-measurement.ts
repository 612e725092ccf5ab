import type {
  CourseAxis,
  Measurement,
  MeasurementMethod,
  PerAxis,
  Rectification,
  UncertaintyPart,
} from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { shownWindow } from './shown-window.js';
import { toFigures } from '../to-figures.js';

// A hundredth of the best measurement's uncertainty.
const figures = 6;

/** A measurement as it is reported: plain numbers, units in the names. */
export interface MeasurementReport {
  /** How it was come by. */
  readonly method: MeasurementMethod;
  /** What was held against the picture. */
  readonly reference: {
    /** A catalogue id, or `own`. */
    readonly id: string;
    /** As people say it. */
    readonly name: string;
    /** Its size along the measured direction. */
    readonly sizeMm: number;
    /** Standard uncertainty (k = 1) of that size; 0 where it is taken as exact. */
    readonly uncertaintyPercent: number;
    /** Where that size comes from. */
    readonly source: string;
  };
  /** Which way courses are counted, or null where no course was looked for. */
  readonly axis: CourseAxis | null;
  /** Bed joint to bed joint in the level picture, or null where no course was looked for. */
  readonly coursePeriodPx: number | null;
  /** One brick with its joint along the course, or null where none was found. */
  readonly brickPeriodPx: number | null;
  /** The bond's catalogue id, or null where it could not be told. */
  readonly bond: string | null;
  /** Real millimetres per pixel of the upright photo; where rectified, of the level picture. */
  readonly mmPerPx: PerAxis<number>;
  /** Expanded uncertainty (k = 2) of `mmPerPx`, the larger of both ways. */
  readonly uncertaintyPercent: number;
  /** What that is made of: independent parts, each its standard uncertainty (k = 1), largest first. */
  readonly budget: readonly UncertaintyPart[];
  /** 0 to 1: of answers given with 0.9, nine in ten are right. */
  readonly confidence: number;
  /** How to make the photo level, or null where it is taken as level. */
  readonly rectification: Rectification | null;
  /** What the photo shows of the real thing; where straightened, its largest upright rectangle. */
  readonly surfaceSizeMm: {
    /** From side to side. */
    readonly width: number;
    /** From top to bottom. */
    readonly height: number;
  };
}

/**
 * Report a measurement.
 *
 * @param measurement - Of a photo.
 * @param size - That photo, upright, in pixels.
 * @returns The same in plain numbers.
 */
export function reportMeasurement(measurement: Measurement, size: Size<number>): MeasurementReport {
  const { method, reference, mmPerPx, lattice, rectification } = measurement;
  const { id, name, source } = reference;
  const shown = shownWindow(measurement, size);
  return {
    method,
    reference: {
      id,
      name,
      sizeMm: reference.size,
      uncertaintyPercent: toFigures(100 * reference.uncertainty, 3),
      source,
    },
    axis: lattice?.axis ?? null,
    coursePeriodPx: inPixels(lattice?.course),
    brickPeriodPx: inPixels(lattice?.brick),
    bond: lattice?.bond ?? null,
    mmPerPx: { x: toFigures(mmPerPx.x, figures), y: toFigures(mmPerPx.y, figures) },
    uncertaintyPercent: toFigures(measurement.uncertaintyPercent, 3),
    budget: measurement.budget
      .filter(({ percent }) => percent > 0)
      .sort((a, b) => b.percent - a.percent)
      .map(({ source, percent }) => ({ source, percent: toFigures(percent, 3) })),
    // Downwards: near certain must not read as certain.
    confidence: Math.floor(measurement.confidence * 1e4) / 1e4,
    rectification,
    surfaceSizeMm: {
      width: toFigures(shown.width * mmPerPx.x, figures),
      height: toFigures(shown.height * mmPerPx.y, figures),
    },
  };
}

function inPixels(period: number | null | undefined): number | null {
  return typeof period === 'number' ? toFigures(period, figures) : null;
}
