import { bounds } from '../limits/limits.js';

/**
 * Take named fields out of an EXIF block. Position and serial numbers are never looked at.
 *
 * @param block - With or without `Exif\0\0` before it, if there is one; over 64 KB it is left alone.
 * @param wanted - Of its main picture.
 * @returns What was found of them; a broken block holds nothing.
 * @see CIPA DC-008 (Exif 2.32), 4.6
 */
export async function parseExif(
  block: Buffer | undefined,
  wanted: readonly string[],
): Promise<Readonly<Record<string, unknown>>> {
  if (block === undefined || block.length < 8 || block.length > bounds.exif) return {};
  const marked = block.toString('latin1', 0, 6) === 'Exif\0\0';
  const { default: exifr } = await import('exifr');
  const pick = [...wanted];
  try {
    const fields: unknown = await exifr.parse(marked ? block.subarray(6) : block, {
      tiff: true,
      ifd0: { pick },
      exif: { pick },
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
