import type { PerAxis } from '../surface/measurement.js';

/** What a camera noted that a measurement may use; nothing of where, when or by whom. */
export interface PhotoExif {
  /** Focal length in mm, or null. */
  readonly focalLengthMm: number | null;
  /** Focal length of a 35 mm camera that sees as much, or null. */
  readonly focalLength35mm: number | null;
}

/** The few fields that are taken out of a picture's EXIF block. */
export interface ExifFields {
  /** Dots per inch, not yet judged, or null. */
  readonly dpi: PerAxis<number> | null;
  /** The camera's notes, or null where there are none. */
  readonly camera: PhotoExif | null;
}

const maxBytes = 65_536;

const wanted = [
  'XResolution',
  'YResolution',
  'ResolutionUnit',
  'FocalLength',
  'FocalLengthIn35mmFormat',
];

function positive(fields: Readonly<Record<string, unknown>>, name: string): number | null {
  const value = Object.hasOwn(fields, name) ? fields[name] : undefined;
  return typeof value === 'number' && value > 0 && value < 1e6 ? value : null;
}

async function parse(block: Buffer): Promise<Readonly<Record<string, unknown>>> {
  const { default: exifr } = await import('exifr');
  try {
    const fields: unknown = await exifr.parse(block, {
      tiff: true,
      ifd0: { pick: wanted },
      exif: { pick: wanted },
      ifd1: false,
      gps: false,
      interop: false,
      translateValues: false,
      reviveValues: false,
    });
    return typeof fields === 'object' && fields !== null ? { ...fields } : {};
  } catch {
    // Whatever is wrong with it: a camera's notes are a hint and never cost the picture.
    return {};
  }
}

/**
 * Take resolution and focal length out of an EXIF block. Position, serial numbers and names are
 * never looked at.
 *
 * @param block - With or without `Exif\0\0` before it; over 64 KB it is left alone.
 * @returns What was found; a broken block holds nothing.
 * @see CIPA DC-008 (Exif 2.32), 4.6
 */
export async function readExif(block: Buffer): Promise<ExifFields> {
  if (block.length < 8 || block.length > maxBytes) return { dpi: null, camera: null };
  const marked = block.toString('latin1', 0, 6) === 'Exif\0\0';
  const fields = await parse(marked ? block.subarray(6) : block);
  const [x, y] = [positive(fields, 'XResolution'), positive(fields, 'YResolution')];
  // 2 inch, 3 centimetre.
  const scale = new Map([
    [2, 1],
    [3, 2.54],
  ]).get(positive(fields, 'ResolutionUnit') ?? 2);
  const dpi = x && y && scale ? { x: x * scale, y: y * scale } : null;
  const focalLengthMm = positive(fields, 'FocalLength');
  const focalLength35mm = positive(fields, 'FocalLengthIn35mmFormat');
  const camera = focalLengthMm || focalLength35mm ? { focalLengthMm, focalLength35mm } : null;
  return { dpi, camera };
}
