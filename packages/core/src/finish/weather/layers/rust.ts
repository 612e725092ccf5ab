import { hashCell } from '../hash-cell.js';
import type { NoiseRun } from '../noise.js';
import { scatter, type Scattered } from '../scatter.js';
import { rowNoise, smooth, type WallPoint, type WeatherLayer, type WeatherSite } from '../site.js';
import { layPaint, toPaint } from '../veil.js';

// Half as wide as a bolt's head or a hook's end.
const head = 16;
const longest = 1300;
// How far beyond its own size a head shows, softly.
const soft = 1.6;

/**
 * Rust: what runs down from iron in the wall, tapering, from fixings that are given, or from a few by
 * chance.
 *
 * @param site - Where.
 * @returns The layer.
 */
export function createRust(site: WeatherSite): WeatherLayer {
  const { rust: strength } = site.strengths;
  const lanes = rowNoise(site, { id: 41, cell: 76, tall: 4, count: 3, gain: 0.8 });
  const sway = rowNoise(site, { id: 42, cell: 400, count: 2 });
  const paint = toPaint('multiply', [0.78, 0.44, 0.2]);
  const iron = toPaint('cover', [0.2, 0.13, 0.1]);
  const marks = { stain: new Float32Array(site.run.count), spot: new Float32Array(site.run.count) };
  const reach = { up: soft * headAt(site.run.step), down: longest };
  const ironNear = site.fixings === null ? byChance(site, reach) : given(site.fixings, reach);
  const most = (0.5 + 0.5 * strength) * Math.sqrt(strength);
  return ({ y }, veil) => {
    const near = ironNear(y);
    if (near.length === 0) return;
    const drawn = { ...marks, run: site.run, down: y, lane: lanes(y), swing: sway(y) };
    marks.stain.fill(0);
    marks.spot.fill(0);
    for (const at of near) drawDrop(toDrop(at, { strength, most, seed: site.ground.seed }), drawn);
    for (const maps of [veil.bricks, veil.joints]) {
      layPaint(maps, paint, marks.stain);
      layPaint(maps, iron, marks.spot);
    }
  };
}

interface Reach {
  readonly up: number;
  readonly down: number;
}

// What is smaller than a place is as large as one.
function headAt(step: number): number {
  return Math.max(head, 0.7 * step);
}

function byChance(site: WeatherSite, reach: Reach): (y: number) => readonly Scattered[] {
  const share = 0.12 + 0.4 * site.strengths.rust;
  return scatter(site, { id: 43, cell: { x: 1900, y: 1500 }, share, reach });
}

function given(fixings: readonly WallPoint[], reach: Reach): (y: number) => readonly WallPoint[] {
  return (y) => fixings.filter((at) => y > at.y - reach.up && y < at.y + reach.down);
}

interface Drop {
  readonly at: WallPoint;
  readonly long: number;
  readonly wide: number;
  readonly most: number;
}

// What lies by chance has chances of its own, which come round with a tile; what is given has those of its
// place.
function toDrop(
  at: WallPoint | Scattered,
  {
    strength,
    most,
    seed,
  }: { readonly strength: number; readonly most: number; readonly seed: number },
): Drop {
  const chance = 'chance' in at ? at.chance : chanceAt(at, seed);
  const long = (0.3 + 0.7 * chance(0)) * (400 + 900 * strength);
  return { at, long, wide: 10 + 10 * chance(1), most };
}

function chanceAt({ x, y }: WallPoint, seed: number): (which: number) => number {
  const mine = hashCell(Math.round(x / 10), Math.round(y / 10), seed);
  return (which) => ((mine >>> (8 * which)) & 255) / 255;
}

interface Marks {
  readonly run: NoiseRun;
  readonly down: number;
  readonly lane: Float32Array;
  readonly swing: Float32Array;
  readonly stain: Float32Array;
  readonly spot: Float32Array;
}

function drawDrop(
  { at, long, wide, most }: Drop,
  { run, down, lane, swing, stain, spot }: Marks,
): void {
  const { first, step, start } = run;
  const t = (down - at.y) / long;
  const broad = wide * (1 - 0.6 * t) + 12 * Math.max(0, 1 - 2 * t);
  // What is narrower than a step is as broad as one, and fainter for it.
  const shown = Math.max(broad, 0.9 * step);
  const cover = (1.25 * most * broad) / shown;
  const size = headAt(step);
  const aside = Math.max(3 * shown, 2 * size);
  const from = Math.max(0, Math.floor((at.x - aside - start) / step) - first);
  const to = Math.min(stain.length - 1, Math.ceil((at.x + aside - start) / step) - first);
  for (let i = from; i <= to; i++) {
    const x = (first + i) * step + start - at.x;
    const y = down - at.y;
    if (t >= 0 && t < 1) {
      const off = (x - 16 * t * swing[i]!) / shown;
      const thin = Math.min(1, Math.max(0, 1 - 0.8 * t + 0.45 * lane[i]!));
      const drawn = cover * Math.max(0, 1 - off * off) * (1 - t) * thin;
      stain[i] = Math.max(stain[i]!, Math.min(0.95, drawn));
    }
    spot[i] = Math.max(spot[i]!, 0.9 * smooth(soft - Math.sqrt(x * x + y * y) / size));
  }
}
