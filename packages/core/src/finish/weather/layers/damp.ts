import {
  columnNoise,
  createCover,
  rise,
  rowNoise,
  smooth,
  softenStep,
  type WeatherLayer,
  type WeatherSite,
} from '../site.js';
import { layOverAll, toPaint } from '../veil.js';

// Common practice, no source: rising damp stops at about a metre.
const highest = 1000;
const splash = 260;

/**
 * Damp: wet that rises from the foot, dark up to an uneven line, where salts dry out in a tide mark; a
 * fainter one where it stood before; green where the ground splashes.
 *
 * @param site - Where.
 * @param foot - Where it stands on the ground, mm below the datum.
 * @returns The layer.
 */
export function createDamp(site: WeatherSite, foot: number): WeatherLayer {
  const { damp: strength } = site.strengths;
  const most = Math.sqrt(strength);
  const swell = columnNoise(site, { id: 31, cell: 1900, count: 5, gain: 0.62 });
  const before = columnNoise(site, { id: 32, cell: 1300, count: 5, gain: 0.62 });
  const level = highest * (0.2 + 0.6 * strength);
  const line = swell.map((value) => level * Math.max(0.2, 1 + 0.15 * value));
  const older = before.map((value, i) => line[i]! * (0.7 + 0.09 * value));
  const rough = rowNoise(site, { id: 33, cell: 170, count: 3, gain: 0.55 });
  const blotches = { id: 34, cell: 600, count: 4, gain: 0.65 };
  const mottle = rowNoise(site, blotches);
  const half = softenStep(site.ground, blotches, { width: 1, times: 0.5 });
  const less = softenStep(site.ground, blotches, { width: 1, times: 0.4 });
  const wet = toPaint('multiply', [0.5, 0.46, 0.42]);
  const tide = toPaint('screen', [0.62, 0.58, 0.5]);
  const stain = toPaint('multiply', [0.72, 0.62, 0.46]);
  const slimy = toPaint('multiply', [0.55, 0.66, 0.4]);
  const dark = createCover(site);
  const white = createCover(site);
  const brown = createCover(site);
  const slime = createCover(site);
  const tallest = 2 * highest;
  return ({ y }, veil) => {
    const high = foot - y;
    if (high > tallest) return;
    const edge = rough(y);
    const spots = mottle(y);
    for (let i = 0; i < dark.length; i++) {
      const d = line[i]! + 20 * edge[i]! - high;
      const wetness = smooth((d + 30) / 190);
      dark[i] = most * wetness * Math.min(1, Math.max(0.2, 0.62 + 0.16 * spots[i]!));
      const dry = Math.max(0, 0.55 + 0.45 * spots[i]!);
      const old = older[i]! + 20 * edge[i]! - high;
      white[i] = most * Math.min(0.4, 0.3 * dry * (bump(d + 20, 75) + 0.4 * bump(old, 60)));
      brown[i] = most * 0.45 * bump(d - 60, 90) * rise(half, 0.6 + 0.5 * spots[i]!);
      // Never none at all, nor less: high up, the quotient would be green.
      const tall = Math.max(0.25, 1 + 0.35 * swell[i]! + 0.2 * edge[i]!);
      const low = 1 - high / (splash * tall);
      const green = rise(less, 0.55 + 0.4 * spots[i]!);
      slime[i] = 0.75 * most * smooth(low) * green;
    }
    layOverAll(veil, wet, dark);
    layOverAll(veil, stain, brown);
    layOverAll(veil, tide, white);
    layOverAll(veil, slimy, slime);
  };
}

// 1 at 0, and 0 from so far off on.
function bump(d: number, wide: number): number {
  const t = 1 - Math.abs(d) / wide;
  return t <= 0 ? 0 : t * t * (3 - 2 * t);
}
