import { withLimits } from '../../read/held-limits.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Outcome } from '../../errors/outcome.js';
import { readPhoto } from '../../read/read-photo.js';
import { type Dpi, dpi as toDpi, realMm, toDots, toPrint } from '../../units/units.js';
import { judgePrint } from './judge-print.js';
import { findMeasurement, type MeasureRefusal } from '../measure/find-measurement.js';
import { hintFormats } from '../measure/hint-formats.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { checkReference, type ReferenceOptions } from '../measure/reference-options.js';
import { refuseDoubtful } from '../open/refuse-doubtful.js';
import { type MeasurementReport, reportMeasurement } from '../measure/report-measurement.js';
import { type PhotoReport, reportPhoto } from '../measure/report-photo.js';
import { reportScale, type ScaleReport } from '../measure/report-scale.js';
import { shownWindow } from '../measure/shown-window.js';
import { toFigures } from '../to-figures.js';

/** What {@link scalePhoto} needs to know. */
export interface ScalePhotoOptions extends ReferenceOptions, JobOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Of the printer; 600 unless told. */
  readonly dpi?: Dpi;
}

/** What a photo comes to on paper. */
export interface ScaledPhoto {
  /** The photo, upright. */
  readonly photo: PhotoReport;
  /** Of the model. */
  readonly scale: ScaleReport;
  /** Of the printer. */
  readonly dpi: number;
  /** All that the photo shows once level, printed. */
  readonly printSizeMm: { readonly width: number; readonly height: number };
  /** The same in whole dots. */
  readonly dots: { readonly width: number; readonly height: number };
  /** Photo pixels to an inch of paper, along the coarser axis. */
  readonly photoDpi: number;
  /** Printed dots from bed joint to bed joint, or null where there are no courses. */
  readonly courseDots: number | null;
  /** Of the photo. */
  readonly measurement: MeasurementReport;
}

/**
 * Say how big a photo prints in a model scale, and how fine.
 *
 * @param path - Where the photo lies.
 * @param options - The scale, the printer, and what is known of the photo.
 * @returns Sizes and resolution, or why the photo could not be measured.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function scalePhoto(
  path: string,
  options: ScalePhotoOptions,
): Promise<Outcome<ScaledPhoto, MeasureRefusal | 'scale-doubtful'>> {
  return withLimits(options, () => scaleWithin(path, options));
}

async function scaleWithin(
  path: string,
  options: ScalePhotoOptions,
): Promise<Outcome<ScaledPhoto, MeasureRefusal | 'scale-doubtful'>> {
  const { scale, dpi = toDpi(600) } = options;
  checkReference(options);
  beginStep('reading', options);
  const photo = await readPhoto(path);
  const found = await findMeasurement(photo, options);
  if (!found.ok) return hintFormats(found, photo, options);
  const { measurement } = found.value;
  const doubtful = refuseDoubtful(measurement, path);
  if (doubtful) return doubtful;
  const { mmPerPx, lattice } = measurement;
  const { photoDpi, factor, warnings } = judgePrint(measurement, { scale, dpi });
  const shown = shownWindow(measurement, photo);
  const printSizeMm = {
    width: toPrint(realMm(shown.width * mmPerPx.x), scale.ratio),
    height: toPrint(realMm(shown.height * mmPerPx.y), scale.ratio),
  };
  return {
    ok: true,
    value: {
      photo: reportPhoto(photo),
      scale: reportScale(scale),
      dpi,
      printSizeMm: {
        width: toFigures(printSizeMm.width, 6),
        height: toFigures(printSizeMm.height, 6),
      },
      dots: {
        width: Math.max(1, Math.round(toDots(printSizeMm.width, dpi))),
        height: Math.max(1, Math.round(toDots(printSizeMm.height, dpi))),
      },
      photoDpi: toFigures(Math.min(photoDpi.x, photoDpi.y), 6),
      courseDots: lattice === null ? null : toFigures(lattice.course * factor[lattice.axis], 6),
      measurement: reportMeasurement(measurement, photo),
    },
    warnings: [...photo.warnings, ...found.warnings, ...warnings],
  };
}
