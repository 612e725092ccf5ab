import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { findCourse, findCourses } from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto, seedRanges } from '@gaugerod/fixtures';
import { drawKinds, kindIds, nothing } from './draw-kinds.js';
import { type BenchWords, readWords } from './read-words.js';
import { listTrials, reportTrials } from './report-trials.js';
import { type Trial, tryPicture } from './try-picture.js';

const anyCourse = findCourse('75mm');

const usual = {
  walls: 60,
  views: 60,
  works: 40,
  textures: 30,
  tempting: 18,
};

async function benchGenerated(
  kind: keyof typeof usual,
  count: number,
  words: BenchWords,
): Promise<void> {
  const draws = drawKinds[kind](words.seed, count);
  const trials: Trial[] = [];
  for (const [index, draw] of draws.entries()) {
    if (words.only.size > 0 && !words.only.has(index)) continue;
    const { name, truth, raster, course } = await draw();
    if (words.out !== null) {
      mkdirSync(words.out, { recursive: true });
      const file = await encodePhoto(raster, { quality: 95 });
      writeFileSync(join(words.out, `${kind}-${words.seed}-${index}.jpg`), file);
    }
    trials.push(tryPicture(name, index, { raster, truth }, findCourse(course)));
  }
  reportTrials(`${count} ${kind} from seed ${words.seed}`, trials);
  if (words.rest.includes('each')) listTrials(trials);
}

interface Manifest {
  readonly pictures: readonly {
    readonly file: string;
    readonly bond: string | null;
    readonly coursePx: { readonly x: number | null; readonly y: number | null };
    readonly brickPx: number | null;
  }[];
}

async function benchFolder(folder: string, words: BenchWords): Promise<void> {
  const text = readFileSync(join(folder, 'manifest.json'), 'utf8');
  const { pictures }: Manifest = JSON.parse(text) as Manifest;
  const trials: Trial[] = [];
  for (const [index, { file, bond, coursePx, brickPx }] of pictures.entries()) {
    // What repeats along x only stands upright: a user would say so.
    const upright = coursePx.y === null && coursePx.x !== null;
    const raster = await decodePhoto(readFileSync(join(folder, file)));
    const axis = upright ? ('x' as const) : ('y' as const);
    const truth = { ...nothing, coursePx: coursePx.y ?? coursePx.x, brickPx, bond, axis };
    trials.push(tryPicture(file, index, { raster, truth }, anyCourse));
  }
  reportTrials(folder, trials);
  if (words.rest.includes('each')) listTrials(trials);
}

function benchSpeed(): void {
  const { raster } = drawWall({
    bond: 'english',
    coursePx: 62.5,
    width: 6000,
    height: 4000,
    seed: 7,
  });
  const times: number[] = [];
  for (let round = 0; round < 5; round++) {
    const start = performance.now();
    findCourses(raster);
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  console.log(
    `\n24 megapixels, courses of 62.5 px: median ${(times[2] ?? NaN).toFixed(0)} ms of 5`,
  );
}

/**
 * How true courses are found: on drawn pictures never seen while tuning, and on a folder of real
 * ones that holds a `manifest.json` with their truth, where one is named.
 *
 * @param words - A folder; how many of a kind (`walls=60 views=60 works=40 textures=30 tempting=18`
 *   unless told; where
 *   any is told, the others are left out); a first seed other than the unseen range's
 *   (`seed=4000000`); single pictures to try again (`only=17,23`), and where to leave them
 *   (`out=DIR`); `each` for a line on every picture; `speed` for the time that a large photo takes.
 */
export async function benchMeasure(words: readonly string[]): Promise<void> {
  const told = readWords(words, seedRanges.unseen);
  const folder = told.rest.find((word) => existsSync(join(word, 'manifest.json')));
  const all = words.length === 0;
  if (folder !== undefined) await benchFolder(folder, told);
  for (const kind of kindIds) {
    const count = told.counts.get(kind) ?? (all ? usual[kind] : 0);
    if (count > 0) await benchGenerated(kind, count, told);
  }
  if (all || told.rest.includes('speed')) benchSpeed();
}
