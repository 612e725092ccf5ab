import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import { readPhoto } from '../../read/read-photo.js';
import { holdsWhole } from '../../seam/mend/holds-whole.js';
import { type Seam, seamsOf } from '../../seam/inspect/inspect-seams.js';
import { whenAsked } from '../../seam/inspect/when-asked.js';
import type { Lattice, Measurement, PerAxis } from '../../surface/measurement.js';
import type { Photo } from '../../read/read-photo.js';
import type { Size } from '../../units/parse-size.js';
import { findLie } from '../measure/find-lie.js';
import { findMeasurement, type MeasureRefusal } from '../measure/find-measurement.js';
import { findRepeat, repeatOf } from '../measure/find-repeat.js';
import type { JobOptions } from '../job-options.js';
import { type LevelPicture, openLevel } from './open-level.js';
import { refuseDoubtful } from './refuse-doubtful.js';
import type { ReferenceOptions } from '../measure/reference-options.js';
import { trustWrap } from '../measure/trust-wrap.js';

/** What is known of a photo that is to be a source of a larger tile. */
export interface KnownSource {
  /** Where it lies. */
  readonly path: string;
  /** Of its file's bytes. */
  readonly sha256: string;
  /** Columns once level, seldom whole. */
  readonly width: number;
  /** Rows once level. */
  readonly height: number;
  /** How big it is, or null where nobody knows. */
  readonly measurement: Measurement | null;
  /** Where its joints lie, or null where it has none. */
  readonly lattice: Lattice | null;
  /** Along which axes it goes on with its other side, whole bricks meeting. */
  readonly meets: PerAxis<boolean>;
}

/** Such a photo, and its picture. */
export interface OpenedSource {
  /** What is known. */
  readonly known: KnownSource;
  /** As its file tells of it. */
  readonly photo: Omit<Photo, 'raster'>;
  /** Level. */
  readonly picture: LevelPicture;
}

/** How a source is opened. */
export interface OpenSourceOptions
  extends Pick<ReferenceOptions, 'course' | 'axis' | 'straighten' | 'references'>, JobOptions {
  /** Whether it must be measured. */
  readonly measured: boolean;
}

/**
 * Read a photo, measure it and make it level.
 *
 * @param path - Where it lies.
 * @param options - What is known of it.
 * @returns The photo, or why it cannot be used.
 * @throws TextureError when a file does not allow it.
 */
export async function openSource(
  path: string,
  options: OpenSourceOptions,
): Promise<Outcome<OpenedSource, MeasureRefusal | 'scale-doubtful'>> {
  const { measured, course, axis, straighten, references, onProgress, signal } = options;
  const photo = await readPhoto(path);
  const found = await findMeasurement(photo, {
    ...(course && { course }),
    ...(axis && { axis }),
    ...(straighten && { straighten }),
    ...(references && { references }),
    ...(onProgress && { onProgress }),
    ...(signal && { signal }),
  });
  if (!found.ok) {
    if (measured || found.code !== 'not-measured') return { ...found, hint: hintFor(found.code) };
    return { ok: true, value: openUnmeasured(photo, options), warnings: photo.warnings };
  }
  const { measurement } = found.value;
  const doubtful = refuseDoubtful(measurement, path);
  if (doubtful) return doubtful;
  const picture = openLevel(photo.raster, { ...measurement, enough: 1 });
  const { lattice } = findRepeat(picture);
  const seams = found.value.seams ?? askLater(picture);
  const warnings: readonly Warning[] = [...photo.warnings, ...found.warnings];
  return {
    ok: true,
    value: {
      known: know(photo, picture, { measurement, lattice, seams }),
      photo: factsOf(photo),
      picture,
    },
    warnings,
  };
}

// A source is measured by its courses or by what was kept.
function hintFor(code: MeasureRefusal): string {
  const kept = 'measure it in another way and keep that (gaugerod measure --save)';
  return code === 'not-measured'
    ? `say what the courses are (--course uk-metric), or ${kept}`
    : `${kept}, or ask for times the photo as it is (--times 4x4, without --course)`;
}

function openUnmeasured(photo: Photo, { straighten = 'full' }: OpenSourceOptions): OpenedSource {
  const lie = findLie(photo.raster, straighten);
  const picture = openLevel(photo.raster, { ...lie, enough: 1 });
  const seams = askLater(picture);
  const { lattice: found } = picture;
  // What was straightened was cut anew, and meets itself by chance if at all.
  const wraps = found !== null && lie.rectification === null && seams[found.axis].seamless;
  const lattice = wraps ? trustWrap(found, photo) : found;
  const known = know(photo, picture, { measurement: null, lattice, seams });
  return { known, photo: factsOf(photo), picture };
}

// Of most photos that were straightened nobody asks, and all of one would have to be straightened first.
function askLater(picture: LevelPicture): PerAxis<Seam> {
  return whenAsked<PerAxis<Seam>>(() => seamsOf(picture.look), ['x', 'y']);
}

function know(
  { path, sha256 }: Photo,
  { width, height }: LevelPicture,
  { measurement, lattice, seams }: Found,
): KnownSource {
  const whole = { width: Math.round(width), height: Math.round(height) };
  const meets = meetsWhole(whole, lattice, seams);
  return { path, sha256, width, height, measurement, lattice, meets };
}

interface Found extends Pick<KnownSource, 'measurement' | 'lattice'> {
  readonly seams: PerAxis<Seam>;
}

// A photo whose ends meet, but not at whole bricks, does not go on with its other side.
function meetsWhole(
  { width, height }: Size<number>,
  lattice: Lattice | null,
  seams: PerAxis<Seam>,
): PerAxis<boolean> {
  const { repeat } = repeatOf(lattice);
  const whole = (length: number, one: number | null): boolean =>
    one === null ? lattice === null : holdsWhole(length, one);
  return {
    x: whole(width, repeat.x) && seams.x.seamless,
    y: whole(height, repeat.y) && seams.y.seamless,
  };
}

// Without its pixels, which others are to let go.
function factsOf(photo: Photo): OpenedSource['photo'] {
  const { path, step, width, height, sha256, bytes, format, dpi, orientation } = photo;
  const { exif, warnings } = photo;
  return { path, step, width, height, sha256, bytes, format, dpi, orientation, exif, warnings };
}
