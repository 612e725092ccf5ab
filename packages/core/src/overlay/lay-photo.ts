import type { Raster } from '../raster/raster.js';
import type { PageWindow } from './ink-field.js';

// A paler, greyer photo: what is drawn on it stands out, and it is still the photo.
const keptColour = 0.45;
const keptLight = 0.75;

/**
 * Lay the photo on the page, a little darker and greyer than it is.
 *
 * @param page - Changed in place.
 * @param photo - At the size at which it is to lie there.
 * @param window - Where.
 */
export function layPhoto(page: Raster, photo: Raster, window: PageWindow): void {
  const [red, green, blue] = photo.planes;
  const [outRed, outGreen, outBlue] = page.planes;
  for (let y = 0; y < window.height; y++) {
    let i = y * photo.width;
    let o = (y + window.y) * page.width + window.x;
    for (let x = 0; x < window.width; x++, i++, o++) {
      const [r, g, b] = [hold(red[i]!), hold(green[i]!), hold(blue[i]!)];
      // Luminance of linear sRGB, IEC 61966-2-1.
      const grey = (1 - keptColour) * (0.2126 * r + 0.7152 * g + 0.0722 * b);
      outRed[o] = keptLight * (grey + keptColour * r);
      outGreen[o] = keptLight * (grey + keptColour * g);
      outBlue[o] = keptLight * (grey + keptColour * b);
    }
  }
}

function hold(light: number): number {
  return light < 0 ? 0 : light > 1 ? 1 : light;
}
