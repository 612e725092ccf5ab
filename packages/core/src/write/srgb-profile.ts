import { loadSharp } from './load-sharp.js';

/**
 * A colour profile that says sRGB, for formats that have no shorter word for it.
 *
 * @returns The profile that the decoder carries, under 1 KB.
 * @see ICC.1:2001-04; IEC 61966-2-1:1999
 */
export async function srgbProfile(): Promise<Uint8Array> {
  const sharp = await loadSharp();
  const pixel = sharp({ create: { width: 1, height: 1, channels: 3, background: 'black' } });
  const file = await pixel.withIccProfile('srgb').png().toBuffer();
  const { icc } = await sharp(file).metadata();
  if (icc === undefined) throw new Error('the decoder carries no sRGB profile');
  return icc;
}
