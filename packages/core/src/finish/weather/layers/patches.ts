import { joinSpans } from '../join-spans.js';
import { type Scattered, scatter } from '../scatter.js';
import type { NoiseRun } from '../noise.js';
import type { PlaceSpan } from '../octaves.js';
import {
  createCover,
  rise,
  rowNoise,
  type SoftStep,
  softenStep,
  type WeatherLayer,
  type WeatherSite,
} from '../site.js';
import { layCoat, layOverAll, layPaint, toPaint } from '../veil.js';

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
  const strength = strengths.patches;
  const edges = { id: 91, cell: 320, count: 4, gain: 0.6 };
  const smears = { id: 92, cell: 120, count: 3, gain: 0.6 };
  const ragged = rowNoise(site, edges);
  const smear = rowNoise(site, smears);
  const steps = {
    coated: softenStep(site.ground, edges, { width: 24, times: 62 }),
    pointed: softenStep(site.ground, edges, { width: 90, times: 62 }),
    smear: softenStep(site.ground, smears, { width: 1.2 }),
  };
  const mortar = toPaint('cover', [0.72, 0.69, 0.63]);
  const render = toPaint('cover', [0.6, 0.585, 0.55]);
  const joints = createCover(site);
  const bricks = createCover(site);
  const coat = createCover(site);
  const share = 0.15 + 0.6 * strength;
  const placesNear = scatter(site, { id: 93, cell: { x: 2900, y: 2300 }, share, reach });
  return ({ y, mended }, veil) => {
    const found = placesNear(y);
    if (found.length === 0) return;
    const near = found.map((one) => toPlace(one, strength));
    const reaches = near.map(({ x, wide }) => ({ left: x - wide - over, right: x + wide + over }));
    for (const span of joinSpans(run, reaches)) {
      const { from, to } = span;
      joints.fill(0, from, to);
      bricks.fill(0, from, to);
      coat.fill(0, from, to);
      const edge = ragged(y, span);
      const thin = smear(y, span);
      const drawn = { run, span, down: y, edge, thin, steps, mended, joints, bricks, coat };
      for (const place of near) drawPlace(place, drawn);
      layPaint(veil.joints, mortar, joints, span);
      layPaint(veil.bricks, mortar, bricks, span);
      layOverAll(veil, render, coat, span);
      layCoat(veil, coat, span);
    }
  };
}

interface DrawnRow {
  readonly run: NoiseRun;
  readonly span: PlaceSpan;
  /** Where the row lies, mm below the datum. */
  readonly down: number;
  readonly edge: Float32Array;
  readonly thin: Float32Array;
  readonly steps: Readonly<Record<'coated' | 'pointed' | 'smear', SoftStep>>;
  readonly mended: Float32Array;
  readonly joints: Float32Array;
  readonly bricks: Float32Array;
  readonly coat: Float32Array;
}

function drawPlace(place: MendedPlace, drawn: DrawnRow): void {
  const { x, wide, coated, fresh } = place;
  const { run, span, edge, thin, steps, mended, joints, bricks, coat } = drawn;
  const { first, step, start } = run;
  const tall = place.high - Math.abs(drawn.down - place.y);
  const bar = coated ? steps.coated : steps.pointed;
  for (let i = span.from; i < span.to; i++) {
    const aside = Math.abs((first + i) * step + start - x);
    if (aside > wide + over) continue;
    const inside = Math.min(wide - aside, tall) + 62 * edge[i]!;
    const whole = rise(bar, inside + 12);
    if (whole === 0) continue;
    mended[i] = Math.max(mended[i]!, whole * fresh);
    joints[i] = Math.max(joints[i]!, 0.85 * fresh * whole);
    const smeared = 0.4 * fresh * whole * rise(steps.smear, thin[i]! - 0.5);
    bricks[i] = Math.max(bricks[i]!, smeared);
    if (coated) coat[i] = Math.max(coat[i]!, 0.92 * whole * rise(steps.smear, thin[i]! + 2.6));
  }
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
