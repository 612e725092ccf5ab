import {
  columnNoise,
  createCover,
  rise,
  rowNoise,
  softenStep,
  type WeatherLayer,
  type WeatherSite,
} from '../site.js';
import { layOverAll, toPaint } from '../veil.js';

/**
 * Streaks: dirt that rain washes off sills and copings, in lanes that thin out and end at lengths of their
 * own.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createStreaks(site: WeatherSite): WeatherLayer {
  const { streaks: strength } = site.strengths;
  const long = 500 + 1900 * strength;
  const slow = columnNoise(site, { id: 21, cell: 420, count: 4, gain: 0.8 });
  const reach = slow.map((value) => long * Math.min(1.3, Math.max(0.15, 0.6 + 0.3 * value)));
  const longest = 1.3 * long;
  const narrow = { id: 22, cell: 150, tall: 15, count: 3, gain: 0.65 };
  const lanes = rowNoise(site, narrow);
  const step = softenStep(site.ground, narrow, { width: 1.3 });
  const paint = toPaint('multiply', [0.27, 0.25, 0.22]);
  const cover = createCover(site);
  const most = 0.8 * Math.sqrt(strength);
  return ({ y, fall, leastFall, end }, veil) => {
    if (leastFall >= longest) return;
    const lane = lanes(y);
    for (let i = 0; i < cover.length; i++) {
      const t = fall[i]! / reach[i]!;
      if (t >= 1) {
        cover[i] = 0;
        continue;
      }
      // What is left of a lane narrows towards its end: less and less of it is past the bar.
      const bar = 0.6 - 0.9 * strength + 1.8 * t - 0.9 * end[i]! * (1 - t);
      const under = Math.max(0, 1 - fall[i]! / 80);
      cover[i] = most * Math.max(rise(step, lane[i]! - bar) * (1 - t * t), 0.45 * under * under);
    }
    layOverAll(veil, paint, cover);
  };
}
