import { type Scattered, scatter } from '../scatter.js';
import { rowNoise, smooth, type WeatherLayer, type WeatherSite } from '../site.js';
import { layCoat, layPaint, toPaint } from '../veil.js';

// How far past half its height a place may show, its edge being ragged, mm.
const over = 250;
const tallest = 530;
const reach = { up: tallest + over, down: tallest + over };

/**
 * Mended places: joints pointed anew in paler mortar, with some of it smeared over the bricks, and here and
 * there a patch of render. What is newer is cleaner.
 *
 * @param site - Where.
 * @returns The layer, which also says where it is newer.
 */
export function createPatches(site: WeatherSite): WeatherLayer {
  const { strengths, run } = site;
  const { count } = run;
  const strength = strengths.patches;
  const ragged = rowNoise(site, { id: 91, cell: 320, count: 4, gain: 0.6 });
  const smear = rowNoise(site, { id: 92, cell: 120, count: 3, gain: 0.6 });
  const mortar = toPaint('cover', [0.72, 0.69, 0.63]);
  const render = toPaint('cover', [0.6, 0.585, 0.55]);
  const [joints, bricks, coat] = [0, 1, 2].map(() => new Float32Array(count)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const share = 0.15 + 0.6 * strength;
  const placesNear = scatter(site, { id: 93, cell: { x: 2900, y: 2300 }, share, reach });
  return ({ y, mended }, veil) => {
    const near = placesNear(y);
    if (near.length === 0) return;
    const edge = ragged(y);
    const thin = smear(y);
    for (const filled of [joints, bricks, coat]) filled.fill(0);
    for (const place of near.map((one) => toPlace(one, strength))) {
      const { x, wide, high, coated, fresh } = place;
      const { first, step, start } = run;
      const from = Math.max(0, Math.floor((x - wide - over - start) / step) - first);
      const to = Math.min(count - 1, Math.ceil((x + wide + over - start) / step) - first);
      for (let i = from; i <= to; i++) {
        const aside = Math.abs((first + i) * step + start - x);
        const inside = Math.min(wide - aside, high - Math.abs(y - place.y)) + 62 * edge[i]!;
        const whole = smooth((inside + 12) / (coated ? 24 : 90));
        if (whole === 0) continue;
        mended[i] = Math.max(mended[i]!, whole * fresh);
        joints[i] = Math.max(joints[i]!, 0.85 * fresh * whole);
        bricks[i] = Math.max(bricks[i]!, 0.4 * fresh * whole * smooth((thin[i]! - 0.5) / 1.2));
        if (coated) coat[i] = Math.max(coat[i]!, 0.92 * whole * smooth((thin[i]! + 2.6) / 1.2));
      }
    }
    layPaint(veil.joints, mortar, joints);
    layPaint(veil.bricks, mortar, bricks);
    layPaint(veil.joints, render, coat);
    layPaint(veil.bricks, render, coat);
    layCoat(veil, coat);
  };
}

interface MendedPlace {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly high: number;
  readonly coated: boolean;
  readonly fresh: number;
}

function toPlace({ x, y, cell, chance }: Scattered, strength: number): MendedPlace {
  return {
    x,
    y,
    wide: Math.min(cell.x / 3, 180 + 620 * chance(0)),
    high: Math.min(cell.y / 3, 110 + (tallest - 110) * chance(1)),
    coated: chance(2) < 0.25 * strength,
    fresh: 0.45 + 0.5 * chance(3),
  };
}
