import { createCover, type WeatherLayer, type WeatherSite } from '../site.js';
import { layOverBricks, layOverJoints, toPaint } from '../veil.js';

/**
 * Grime: dirt that lies in joints and hollows, where wind and rain do not fetch it.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createGrime(site: WeatherSite): WeatherLayer {
  const { grime: strength } = site.strengths;
  const paint = toPaint('multiply', [0.24, 0.21, 0.17]);
  const bricks = createCover(site);
  const joints = createCover(site);
  return ({ dirt, mended }, veil) => {
    for (let i = 0; i < joints.length; i++) {
      const rate = Math.min(1, Math.max(0.25, 0.68 + 0.18 * dirt[i]!)) * (1 - 0.8 * mended[i]!);
      joints[i] = 0.85 * strength * rate;
      bricks[i] = 0.12 * strength * rate;
    }
    layOverBricks(veil, paint, bricks);
    layOverJoints(veil, paint, joints);
  };
}
