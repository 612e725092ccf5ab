import { createCover, type WeatherLayer, type WeatherSite } from '../site.js';
import { type Colour, fadedAt, layOverAll, toPaint, veilStep } from '../veil.js';

// How much of the sun a wall gets that looks this way.
const suns = { north: 0.45, east: 0.85, west: 0.85, south: 1.15 };

/**
 * Fading: colours bleached towards a pale grey of the wall's own, most where the sun is and no dirt. It comes before all
 * others: how much of the wall's own colour gave way is told, and what to whoever knows its picture.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createFading(site: WeatherSite): WeatherLayer {
  const { strengths, facing } = site;
  const sun = facing === null ? 1 : suns[facing];
  const most = 0.42 * strengths.fade * sun;
  const gone = toPaint('cover', [0, 0, 0]);
  const cover = createCover(site);
  return ({ dirt }, veil) => {
    for (let i = 0, at = fadedAt; i < cover.length; i++, at += veilStep) {
      const share = most * Math.min(1.3, Math.max(0.5, 1 - 0.2 * dirt[i]!));
      cover[i] = share;
      veil.bricks[at] = share / (1 - share);
    }
    layOverAll(veil, gone, cover);
  };
}

/**
 * Bleach a colour.
 *
 * @param mean - Of a wall, encoded.
 * @returns What it fades to.
 */
export function bleach(mean: Colour): Colour {
  const [red, green, blue] = mean;
  const grey = 0.3 * red + 0.59 * green + 0.11 * blue;
  const pale = (channel: number): number => {
    const dull = 0.45 * channel + 0.55 * grey;
    return dull + 0.28 * (1 - dull);
  };
  return [pale(red), pale(green), pale(blue)];
}
