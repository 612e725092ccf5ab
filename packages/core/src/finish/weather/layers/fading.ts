import { createCover, type WeatherLayer, type WeatherSite } from '../site.js';
import { type Colour, layOverAll, toPaint } from '../veil.js';

// How much of the sun a wall gets that looks this way.
const suns = { north: 0.45, east: 0.85, west: 0.85, south: 1.15 };

/**
 * Fading: colours bleached towards a pale grey of the wall's own, most where the sun is and no dirt.
 *
 * @param site - With its mean colour.
 * @returns The layer.
 */
export function createFading(site: WeatherSite): WeatherLayer {
  const { strengths, facing, mean } = site;
  const sun = facing === null ? 1 : suns[facing];
  const most = 0.42 * strengths.fade * sun;
  const paint = toPaint('cover', bleached(mean));
  const cover = createCover(site);
  return ({ dirt }, veil) => {
    for (let i = 0; i < cover.length; i++) {
      cover[i] = most * Math.min(1.3, Math.max(0.5, 1 - 0.2 * dirt[i]!));
    }
    layOverAll(veil, paint, cover);
  };
}

function bleached([red, green, blue]: Colour): Colour {
  const grey = 0.3 * red + 0.59 * green + 0.11 * blue;
  const pale = (channel: number): number => {
    const dull = 0.45 * channel + 0.55 * grey;
    return dull + 0.28 * (1 - dull);
  };
  return [pale(red), pale(green), pale(blue)];
}
