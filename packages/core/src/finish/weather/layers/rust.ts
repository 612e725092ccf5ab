import { hashCell } from '../hash-cell.js';
import { joinSpans } from '../join-spans.js';
import type { NoiseRun } from '../noise.js';
import type { PlaceSpan } from '../octaves.js';
import { scatter, type Scattered } from '../scatter.js';
import {
  createCover,
  rowNoise,
  smooth,
  type WallPoint,
  type WeatherLayer,
  type WeatherSite,
} from '../site.js';
import { layOverAll, toPaint } from '../veil.js';

// Half as wide as a bolt's head or a hook's end.
const head = 16;
const longest = 1300;
// Half as wide as what runs down from it at most, and how far that goes aside on its way.
const broadest = 60;
const swaying = 32;
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
  const { run, strengths, fixings, ground } = site;
  const strength = strengths.rust;
  const lanes = rowNoise(site, { id: 41, cell: 76, tall: 4, count: 3, gain: 0.8 });
  const sway = rowNoise(site, { id: 42, cell: 400, count: 2 });
  const paint = toPaint('multiply', [0.78, 0.44, 0.2]);
  const deposit = toPaint('cover', [0.5, 0.25, 0.1]);
  const iron = toPaint('cover', [0.2, 0.13, 0.1]);
  const stain = createCover(site);
  const crust = createCover(site);
  const spot = createCover(site);
  const reach = { up: soft * headAt(run.step), down: longest };
  const ironNear = fixings === null ? byChance(site, reach) : given(fixings, reach);
  const most = Math.sqrt(strength);
  const aside = Math.max(broadest, run.step, 2 * headAt(run.step)) + swaying;
  return ({ y }, veil) => {
    const drops = ironNear(y).map((at) => toDrop(at, { strength, most, seed: ground.seed }));
    const reaches = drops.map(({ at }) => ({ left: at.x - aside, right: at.x + aside }));
    for (const span of joinSpans(run, reaches)) {
      const { from, to } = span;
      for (const marks of [stain, spot]) marks.fill(0, from, to);
      const drawn = { run, span, down: y, lane: lanes(y, span), swing: sway(y, span), stain, spot };
      for (const drop of drops) drawDrop(drop, drawn);
      for (let i = from; i < to; i++) crust[i] = 0.6 * stain[i]! * stain[i]!;
      layOverAll(veil, paint, stain, span);
      layOverAll(veil, deposit, crust, span);
      layOverAll(veil, iron, spot, span);
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
  return { at, long, wide: broadest * (0.5 + 0.5 * chance(1)), most };
}

function chanceAt({ x, y }: WallPoint, seed: number): (which: number) => number {
  const mine = hashCell(Math.round(x / 10), Math.round(y / 10), seed);
  return (which) => ((mine >>> (8 * which)) & 255) / 255;
}

interface Marks {
  readonly run: NoiseRun;
  readonly span: PlaceSpan;
  readonly down: number;
  readonly lane: Float32Array;
  readonly swing: Float32Array;
  readonly stain: Float32Array;
  readonly spot: Float32Array;
}

function drawDrop(
  { at, long, wide, most }: Drop,
  { run, span, down, lane, swing, stain, spot }: Marks,
): void {
  const { first, step, start } = run;
  const t = (down - at.y) / long;
  const broad = wide * (1 - 0.5 * t);
  // What is narrower than a step is as broad as one, and fainter for it.
  const shown = Math.max(broad, 0.9 * step);
  // It thins out once, towards its end.
  const cover = t >= 0 && t < 1 ? ((most * broad) / shown) * (1 - t * t) : 0;
  const size = headAt(step);
  const aside = Math.max(shown, 2 * size) + swaying;
  const from = Math.max(span.from, Math.floor((at.x - aside - start) / step) - first);
  const to = Math.min(span.to, Math.ceil((at.x + aside - start) / step) - first + 1);
  for (let i = from; i < to; i++) {
    const x = (first + i) * step + start - at.x;
    const y = down - at.y;
    const off = (x - swaying * t * swayOf(swing[i]!)) / shown;
    if (cover > 0 && off > -1 && off < 1) {
      const thread = Math.min(1, Math.max(0.25, 0.85 + 0.3 * lane[i]!));
      stain[i] = Math.max(stain[i]!, Math.min(0.95, cover * (1 - off * off) * thread));
    }
    spot[i] = Math.max(spot[i]!, 0.9 * smooth(soft - Math.sqrt(x * x + y * y) / size));
  }
}

function swayOf(noise: number): number {
  return Math.min(1, Math.max(-1, 0.5 * noise));
}
