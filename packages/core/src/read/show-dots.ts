import type { Sharp } from 'sharp';
import type { Size } from '../units/parse-size.js';
import { loadSharp } from './load-sharp.js';
import { type ShownFile, shownQuality } from './show-file.js';

/** Pictures of one size, as files. */
interface Dots {
  /** Of three colours. */
  readonly colours: Uint8Array;
  /** What of them shows, grey; null where all does. */
  readonly opacity: Uint8Array | null;
}

/**
 * Make a small picture of dots whose opacity is stored beside them.
 *
 * @param dots - They.
 * @param fit - Given their size in pixels, tells how large the picture is to be.
 * @returns The picture.
 * @throws Error when they cannot be decoded.
 */
export async function showDots(
  dots: Dots,
  fit: (own: Size<number>) => Size<number>,
): Promise<ShownFile> {
  const { colours, opacity } = dots;
  const sharp = await loadSharp();
  const open = (bytes: Uint8Array): Sharp => sharp(bytes, { limitInputPixels: false });
  const size = fit(await open(colours).metadata());
  const shrunk = (bytes: Uint8Array): Sharp => open(bytes).resize({ ...size, fit: 'fill' });
  let shown = shrunk(colours);
  if (opacity !== null) {
    // The library flattens before it joins, so that each is a step of its own.
    const mask = await shrunk(opacity).toColourspace('b-w').raw().toBuffer();
    const joined = await sharp(await shown.raw().toBuffer(), { raw: { ...size, channels: 3 } })
      .joinChannel(mask, { raw: { ...size, channels: 1 } })
      .raw()
      .toBuffer();
    shown = sharp(joined, { raw: { ...size, channels: 4 } }).flatten({ background: 'white' });
  }
  const bytes = await shown.jpeg({ quality: shownQuality }).toBuffer();
  return { bytes, ...size };
}
