import type { Raster } from './raster.js';

/**
 * Lay a picture with transparency on white paper, in linear light.
 *
 * @param samples - RGBARGBA…, alpha 0 clear to full (255 or 65535) opaque, not premultiplied.
 * @param planes - The colours of the same pixels in linear light; changed in place.
 */
export function flattenAlpha(samples: Uint8Array | Uint16Array, planes: Raster['planes']): void {
  const [red, green, blue] = planes;
  const full = samples instanceof Uint8Array ? 255 : 65_535;
  for (let i = 0, at = 3; at < samples.length; i++, at += 4) {
    const alpha = samples[at]!;
    if (alpha === full) continue;
    const kept = alpha / full;
    const white = 1 - kept;
    red[i] = red[i]! * kept + white;
    green[i] = green[i]! * kept + white;
    blue[i] = blue[i]! * kept + white;
  }
}
