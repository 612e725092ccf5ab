import {
  createCover,
  rise,
  rowNoise,
  smooth,
  softenStep,
  type WeatherLayer,
  type WeatherSite,
} from '../site.js';
import { layOverBricks, layOverJoints, toPaint } from '../veil.js';

// Under a ledge rain does not wash it off, so far down.
const sheltered = 500;

/**
 * Soot: black taken in by the whole wall, blotched, most where it is sheltered from rain, and washed off
 * in lanes under what water runs from.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createSoot(site: WeatherSite): WeatherLayer {
  const { soot: strength } = site.strengths;
  const narrow = { id: 12, cell: 210, tall: 9, count: 2 };
  const lanes = rowNoise(site, narrow);
  const step = softenStep(site.ground, narrow, { width: 1.4 });
  const paint = toPaint('multiply', [0.2, 0.18, 0.17]);
  const bricks = createCover(site);
  const joints = createCover(site);
  return ({ y, fall, leastFall, dirt, mended }, veil) => {
    const washed = leastFall < 4 * sheltered ? lanes(y) : dirt;
    for (let i = 0; i < bricks.length; i++) {
      const near = Math.max(0, 1 - fall[i]! / sheltered);
      const rain =
        fall[i]! < 4 * sheltered ? rise(step, washed[i]! - 0.3) * smooth(fall[i]! / 300) : 0;
      const rate = 0.66 + 0.16 * dirt[i]! + 0.3 * near * near - 0.22 * rain;
      const cover = strength * Math.min(0.95, Math.max(0.08, rate)) * (1 - 0.7 * mended[i]!);
      bricks[i] = cover;
      joints[i] = Math.min(0.95, 1.12 * cover);
    }
    layOverBricks(veil, paint, bricks);
    layOverJoints(veil, paint, joints);
  };
}
