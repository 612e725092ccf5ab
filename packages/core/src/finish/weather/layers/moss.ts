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
import { layCoat, layOverAll, layOverBricks, layOverJoints, toPaint } from '../veil.js';

// How far it grows above and below a ledge, and above the ground, mm.
const above = 70;
const below = 230;
const ground = 420;
// How much of a wall that looks this way the sun leaves wet.
const shades = { north: 1, east: 0.35, west: 0.35, south: 0 };

/**
 * Moss in cushions and lichen in spots, on ledges, at the foot, and all over walls that the sun does not
 * dry; in joints before it is on bricks.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createMoss(site: WeatherSite): WeatherLayer {
  const { strengths, foot, facing } = site;
  const strength = strengths.moss;
  const shade = facing === null ? 0 : shades[facing];
  const clumpy = { id: 51, cell: 260, count: 5, gain: 0.65 };
  const clump = rowNoise(site, clumpy);
  const patchy = columnNoise(site, { id: 52, cell: 900, count: 3, gain: 0.7 });
  const mixed = { id: 53, cell: 90, count: 3, gain: 0.8 };
  const tone = rowNoise(site, mixed);
  // What rises from nothing to all of it within a place or two is seen as square blocks: less than three places
  // a cell are left out.
  const coarse = { ...site, ground: { ...site.ground, finest: 2 * site.ground.finest } };
  const crusty = { id: 54, cell: 150, count: 4, gain: 0.5 };
  const spots = rowNoise(coarse, crusty);
  const steps = {
    clump: softenStep(site.ground, clumpy, { width: 0.7 }),
    tone: softenStep(site.ground, mixed, { width: 1, times: 0.55 }),
    spot: softenStep(coarse.ground, crusty, { width: 0.5 }),
    slime: softenStep(site.ground, clumpy, { width: 1, times: 0.4 }),
  };
  const dark = toPaint('cover', [0.2, 0.23, 0.12]);
  const light = toPaint('cover', [0.36, 0.38, 0.19]);
  const lichen = toPaint('cover', [0.72, 0.71, 0.58]);
  const film = toPaint('multiply', [0.66, 0.76, 0.52]);
  const brick = createCover(site);
  const joint = createCover(site);
  const bright = createCover(site);
  const crust = createCover(site);
  const slime = createCover(site);
  const thick = createCover(site);
  const most = 0.9 * Math.min(1, 2.5 * strength);
  return ({ y, fall, leastFall, rise: over, leastRise }, veil) => {
    const up = foot === null ? Infinity : foot - y;
    const isNear = up < ground || leastFall < below || leastRise < above;
    if (shade === 0 && !isNear) return;
    const clumps = clump(y);
    const tones = tone(y);
    const dots = spots(y);
    for (let i = 0; i < brick.length; i++) {
      const sill = Math.max(1 - over[i]! / above, 1 - fall[i]! / below, 0.9 - up / ground, 0);
      const home = Math.max(sill, 0.55 * shade);
      if (home <= 0) {
        brick[i] = joint[i] = bright[i] = crust[i] = slime[i] = 0;
        continue;
      }
      // How far past its bar it has to be, in standard deviations.
      const ease = 2.1 * home + 1.6 * strength - 3 + 0.5 * patchy[i]!;
      brick[i] = most * rise(steps.clump, clumps[i]! + ease);
      joint[i] = most * rise(steps.clump, clumps[i]! + ease + 0.6);
      bright[i] = 0.75 * brick[i]! * rise(steps.tone, 0.4 + 0.55 * tones[i]!);
      const spotted = rise(steps.spot, dots[i]! + 1.2 * home + 0.8 * strength - 3);
      crust[i] = 0.85 * most * spotted * (1 - brick[i]!);
      slime[i] = 0.5 * most * smooth(home) * rise(steps.slime, 0.5 + 0.4 * clumps[i]!);
    }
    layOverAll(veil, film, slime);
    layOverAll(veil, lichen, crust);
    layOverBricks(veil, dark, brick);
    layOverJoints(veil, dark, joint);
    layOverAll(veil, light, bright);
    // Tufts let some of the grain be seen.
    for (let i = 0; i < brick.length; i++) thick[i] = 0.55 * brick[i]!;
    layCoat(veil, thick);
  };
}
