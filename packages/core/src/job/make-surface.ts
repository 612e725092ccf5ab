import type { NamedScale } from '../catalogue/find-scale.js';
import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { lookLimits } from '../measure/look-limits.js';
import { type OpenedPhoto, openPhoto } from '../read/open-photo.js';
import { judgeResolution } from '../scale/judge-resolution.js';
import { inspectSeams } from '../seam/inspect-seams.js';
import type { Lattice, Measurement, PerAxis } from '../surface/measurement.js';
import type { Dpi } from '../units/units.js';
import { findJoint } from './find-joint.js';
import type { MeasureRefusal } from './find-measurement.js';
import { findRepeat } from './find-repeat.js';
import { hintFormats } from './hint-formats.js';
import type { JobOptions } from './job-options.js';
import { judgeDrift } from './judge-drift.js';
import { judgeSeams } from './judge-seams.js';
import { makeTile, type MakeTileOptions, type PrintTile, type TileRefusal } from './make-tile.js';
import { type MeasuredReduced, measureReduced } from './measure-reduced.js';
import { openPicture } from './open-picture.js';
import type { ReferenceOptions } from './reference-options.js';
import { refuseDoubtful } from './refuse-doubtful.js';
import { remindOfTerms } from './remind-of-terms.js';
import { warnOfCopies } from './warn-of-copies.js';

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

/**
 * Open a photo that is to become a surface.
 *
 * @param path - Where it lies.
 * @returns It, being decoded in the decoder's own threads.
 * @throws TextureError when the file does not allow it.
 */
export async function openForSurface(path: string): Promise<OpenedPhoto> {
  const opened = await openPhoto(path, { longest: lookLimits.longest });
  // Whoever asks is told of what went wrong.
  opened.lines().catch(() => undefined);
  return opened;
}

/**
 * Measure a photo, bring it to a model's scale, and make it repeat.
 *
 * @param opened - The photo.
 * @param options - What is known of it, the scale, the resolution.
 * @returns What repeats, or why the photo does not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function makeSurface(
  opened: OpenedPhoto,
  options: MakeSurfaceOptions,
): Promise<Outcome<MadeSurface, MeasureRefusal | TileRefusal | 'scale-doubtful'>> {
  const { scale, dpi } = options;
  const { path } = opened.look;
  const { photo, found } = await measureReduced(opened, options);
  if (!found.ok) return hintFormats(found, photo);
  const { measurement, copies, kept } = found.value;
  const doubtful = refuseDoubtful(measurement, path);
  if (doubtful) return doubtful;
  const resolution = judgeResolution({
    mmPerPx: measurement.mmPerPx,
    scale: scale.ratio,
    dpi,
    joint: findJoint(measurement.reference),
  });
  const { factor } = resolution;
  const picture = await openPicture(opened, { photo, measurement, factor });
  const repeat = findRepeat(picture);
  const seams = found.value.seams ?? inspectSeams(picture.look);
  const made = makeTile(picture, { ...options, ...repeat, seams, factor });
  if (!made.ok) return { ...made, message: `${showPath(path)}: ${made.message}` };
  const warnings: Warning[] = [
    ...photo.warnings,
    ...found.warnings,
    ...warnOfCopies(copies, photo),
    ...resolution.warnings,
    ...made.warnings,
    // Where nothing was laid side by side yet: of several seams alike, none stands out.
    ...judgeSeams(inspectSeams(made.value.mended), 'both'),
    ...judgeDrift(made.value.plan),
    ...remindOfTerms(path, kept),
  ];
  const { lattice } = repeat;
  return { ok: true, value: { photo, measurement, lattice, factor, made: made.value }, warnings };
}
