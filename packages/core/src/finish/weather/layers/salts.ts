import {
  createCover,
  rise,
  rowNoise,
  softenStep,
  type WeatherLayer,
  type WeatherSite,
} from '../site.js';
import { layOverBricks, layOverJoints, toPaint } from '../veil.js';

/**
 * Efflorescence: salts that dry out on the faces of bricks, in cloudy blooms.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createSalts(site: WeatherSite): WeatherLayer {
  const { salts: strength } = site.strengths;
  const slowClouds = { id: 61, cell: 1700, count: 3, gain: 0.7 };
  const clouds = rowNoise(site, slowClouds);
  const placed = softenStep(site.ground, slowClouds, { width: 1.3 });
  const fineBlooms = { id: 62, cell: 240, count: 3, gain: 0.6 };
  const bloom = rowNoise(site, fineBlooms);
  const step = softenStep(site.ground, fineBlooms, { width: 2.2 });
  const paint = toPaint('screen', [0.72, 0.71, 0.68]);
  const bricks = createCover(site);
  const joints = createCover(site);
  const most = 0.52 * Math.sqrt(strength);
  return ({ y }, veil) => {
    const cloud = clouds(y);
    const fine = bloom(y);
    for (let i = 0; i < bricks.length; i++) {
      const place = rise(placed, cloud[i]! + 1.5 * strength - 0.9);
      const cover = place === 0 ? 0 : most * place * rise(step, fine[i]! + 0.9);
      bricks[i] = cover;
      joints[i] = 0.45 * cover;
    }
    layOverBricks(veil, paint, bricks);
    layOverJoints(veil, paint, joints);
  };
}
