import { type InspectedSeam, inspectSeams, type Raster } from '@gaugerod/core';
import { seedRanges } from '@gaugerod/fixtures';
import {
  type RepeatingCut,
  repeatingTextures,
  repeatingWalls,
  repeatingWorks,
} from './repeating-cuts.js';
import { judgeOdd } from './odd-accuracy.js';
import { damages } from './seam-damages.js';
import { turnRaster } from './turn-raster.js';

/**
 * Report how well seams are told from none: for each damage the share of pairs, one picture that
 * repeats and one that does not, of which the second scores higher.
 *
 * @param words - How many walls, as many works and textures, 20 unless told; the seed to count
 * from, unless told one of the unseen; and `list` for every score.
 */
export function benchInspect(words: readonly string[]): void {
  const count = Number(words[0] ?? 20);
  const seed = Number(words[1] ?? seedRanges.unseen + 90_000);
  const isListed = words.includes('list');
  const good: number[] = [];
  const bad = new Map<string, number[]>();
  const kinds = [repeatingWalls, repeatingWorks, repeatingTextures];
  for (const cut of kinds.flatMap((draw) => draw(seed, count))) {
    good.push(judge(cut, 'as it is', cut.make(0, 0), isListed));
    for (const [name, damage] of Object.entries(damages)) {
      const raster = damage(cut);
      if (raster === null) continue;
      bad.set(name, [...(bad.get(name) ?? []), judge(cut, name, raster, isListed)]);
    }
  }
  const all = [...bad.values()].flat();
  console.log(`pictures that repeat: ${good.length}, told so ${percent(good, (one) => one <= 1)}`);
  for (const [name, scores] of bad) report(name, good, scores);
  report('all of these', good, all);
  judgeOdd(seed + 10_000, 2 * count);
}

// Rows wrap; the same on its side, columns do.
function judge(cut: RepeatingCut, what: string, raster: Raster, isListed: boolean): number {
  const isTurned = cut.lot < 0.5;
  const seam = isTurned ? inspectSeams(turnRaster(raster)).x : inspectSeams(raster).y;
  if (isListed) {
    const { width, height } = raster;
    const unit = cut.unit?.toFixed(0) ?? '-';
    console.log(`  ${what}; ${cut.name}; ${width}x${height}; ${unit}; ${inDetail(seam)}`);
  }
  return scoreOf(seam);
}

// A mirror is no seam, but nothing that a person wants either.
function scoreOf({ seamScore, mirror }: InspectedSeam): number {
  return Math.max(seamScore, mirror);
}

function inDetail(seam: InspectedSeam): string {
  return Object.entries(seam)
    .filter(([, value]) => typeof value === 'number')
    .map(([name, value]) => `${name} ${Number(value).toFixed(2)}`)
    .join(' ');
}

function report(name: string, good: readonly number[], bad: readonly number[]): void {
  const caught = percent(bad, (one) => one > 1);
  console.log(`${name}: ${bad.length}, area under ROC ${area(good, bad)}, told so ${caught}`);
}

function percent(scores: readonly number[], holds: (score: number) => boolean): string {
  return `${((100 * scores.filter(holds).length) / scores.length).toFixed(1)} %`;
}

function area(good: readonly number[], bad: readonly number[]): string {
  let won = 0;
  for (const one of good) {
    for (const other of bad) won += other > one ? 1 : other === one ? 0.5 : 0;
  }
  return (won / (good.length * bad.length)).toFixed(4);
}
