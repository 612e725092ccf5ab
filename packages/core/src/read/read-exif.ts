import type { PerAxis } from '../surface/measurement.js';
import type { PhotoExif } from '../surface/photo-exif.js';
import { parseExif } from './parse-exif.js';

/** The few fields that are taken out of a picture's EXIF block. */
export interface ExifFields {
  /** Dots per inch, not yet judged, or null. */
  readonly dpi: PerAxis<number> | null;
  /** The camera's notes, or null where there are none. */
  readonly camera: PhotoExif | null;
}

const wanted = [
  'XResolution',
  'YResolution',
  'ResolutionUnit',
  'FocalLength',
  'FocalLengthIn35mmFormat',
  'DigitalZoomRatio',
  'FocalPlaneXResolution',
  'FocalPlaneResolutionUnit',
  'ExifImageWidth',
  'ExifImageHeight',
];

// Millimetres in the units a sensor's resolution is told in: 2 inch, 3 centimetre, 4 millimetre.
const sensorUnits: ReadonlyMap<number, number> = new Map([
  [2, 25.4],
  [3, 10],
  [4, 1],
]);

function positive(fields: Readonly<Record<string, unknown>>, name: string): number | null {
  const value = Object.hasOwn(fields, name) ? fields[name] : undefined;
  return typeof value === 'number' && value > 0 && value < 1e6 ? value : null;
}

/**
 * Take resolution and focal length out of an EXIF block, and nothing else.
 *
 * @param block - With or without `Exif\0\0` before it, if there is one; over 64 KB it is left alone.
 * @returns What was found; a broken block holds nothing.
 * @see CIPA DC-008 (Exif 2.32), 4.6
 */
export async function readExif(block: Buffer | undefined): Promise<ExifFields> {
  const fields = await parseExif(block, wanted);
  const [x, y] = [positive(fields, 'XResolution'), positive(fields, 'YResolution')];
  // 2 inch, 3 centimetre.
  const scale = new Map([
    [2, 1],
    [3, 2.54],
  ]).get(positive(fields, 'ResolutionUnit') ?? 2);
  const dpi = x && y && scale ? { x: x * scale, y: y * scale } : null;
  return { dpi, camera: toCamera(fields) };
}

function toCamera(fields: Readonly<Record<string, unknown>>): PhotoExif | null {
  const focalLengthMm = positive(fields, 'FocalLength');
  const focalLength35mm = positive(fields, 'FocalLengthIn35mmFormat');
  if (focalLengthMm === null && focalLength35mm === null) return null;
  const sensor = positive(fields, 'FocalPlaneXResolution');
  const unit = sensorUnits.get(positive(fields, 'FocalPlaneResolutionUnit') ?? 2);
  const width = positive(fields, 'ExifImageWidth');
  const height = positive(fields, 'ExifImageHeight');
  return {
    focalLengthMm,
    focalLength35mm,
    // 0 says that none was used (CIPA DC-008, DigitalZoomRatio).
    digitalZoom: positive(fields, 'DigitalZoomRatio') ?? 1,
    sensorPxPerMm: sensor === null || unit === undefined ? null : sensor / unit,
    stored: width === null || height === null ? null : { width, height },
  };
}
