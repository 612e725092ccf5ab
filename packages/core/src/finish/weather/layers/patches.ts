import { joinSpans } from '../join-spans.js';
import { type MendedPlace, placeMended } from '../place-mended.js';
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
import { layCoat, layOverAll, layOverBricks, layOverJoints, toPaint } from '../veil.js';

// How far past half its height a place may show, its edge being ragged, mm.
const over = 250;

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
  const placesNear = placeMended(site, over);
  return ({ y, mended }, veil) => {
    const near = placesNear(y);
    if (near.length === 0) return;
    const reaches = near.map(({ x, wide }) => ({ left: x - wide - over, right: x + wide + over }));
    for (const span of joinSpans(run, reaches)) {
      const { from, to } = span;
      joints.fill(0, from, to);
      bricks.fill(0, from, to);
      coat.fill(0, from, to);
      const edge = ragged(y, span);
      const thin = smear(y, span);
      const drawn = {
        run,
        span,
        down: y,
        edge,
        thin,
        steps,
        mended,
        joints,
        bricks,
        coat,
        strength,
      };
      for (const place of near) drawPlace(place, drawn);
      layOverJoints(veil, mortar, joints, span);
      layOverBricks(veil, mortar, bricks, span);
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
  readonly strength: number;
}

function drawPlace(place: MendedPlace, drawn: DrawnRow): void {
  const { x, wide, fresh } = place;
  const { run, span, edge, thin, steps, mended, joints, bricks, coat } = drawn;
  const { first, step, start } = run;
  const tall = place.high - Math.abs(drawn.down - place.y);
  const coated = place.chance(2) < 0.25 * drawn.strength;
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
