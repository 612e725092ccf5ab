import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { findCourses, type Raster } from '@gaugerod/core';
import { decodePhoto, drawWall, sampleTextures, sampleWalls, seedRanges } from '@gaugerod/fixtures';

interface Trial {
  readonly name: string;
  /** True course in pixels, or null where there is none. */
  readonly truth: number | null;
  /** Found course, or null where the picture was refused. */
  readonly found: number | null;
  readonly confidence: number;
  readonly bond: string | null;
  readonly trueBond: string | null;
  readonly brickError: number | null;
  /** Twice the standard uncertainty, as a fraction of the course. */
  readonly spread: number;
  /** How far the bed joint lies from where it was drawn, in courses, or null. */
  readonly offsetError: number | null;
}

function tryPicture(name: string, raster: Raster, truth: Truth): Trial {
  const outcome = findCourses(raster);
  const trueBond = truth.bond ?? null;
  if (!outcome.ok) {
    const missing = {
      found: null,
      confidence: 0,
      bond: null,
      brickError: null,
      spread: 0,
      offsetError: null,
    };
    return { name, truth: truth.coursePx, ...missing, trueBond };
  }
  const { course, confidence, bond, brick, courseOffset, uncertainty } = outcome.value;
  const brickError = brick !== null && truth.brickPx ? brick / truth.brickPx - 1 : null;
  const { courseOffset: trueOffset = null } = truth;
  const apart = trueOffset === null ? null : (courseOffset - trueOffset) / course;
  return {
    name,
    truth: truth.coursePx,
    found: course,
    confidence,
    bond,
    trueBond,
    brickError,
    spread: 2 * uncertainty,
    offsetError: apart === null ? null : Math.abs(apart - Math.round(apart)),
  };
}

interface Truth {
  readonly coursePx: number | null;
  readonly brickPx?: number | null;
  readonly bond?: string;
  readonly courseOffset?: number;
}

const percent = (share: number): string => `${(100 * share).toFixed(3)} %`;

function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

function report(title: string, trials: readonly Trial[]): void {
  const coursed = trials.filter(({ truth }) => truth !== null);
  const bare = trials.filter(({ truth }) => truth === null);
  console.log(title);
  if (coursed.length > 0) reportCoursed(coursed);
  if (bare.length > 0) {
    const refused = bare.filter(({ found }) => found === null).length;
    console.log(
      `  without courses ${bare.length}, refused ${refused} (${percent(refused / bare.length)})`,
    );
    for (const { name, found, confidence } of bare) {
      if (found !== null)
        console.log(`    accepted: ${name} ${found.toFixed(2)} px, ${confidence.toFixed(2)}`);
    }
  }
}

const errorOf = ({ found, truth }: Trial): number =>
  found === null || truth === null ? Infinity : Math.abs(found / truth - 1);

// A course taken for two, three, a half or a third.
function isOctave({ found, truth }: Trial): boolean {
  if (found === null || truth === null) return false;
  const times = Math.max(found / truth, truth / found);
  return times > 1.5 && Math.abs(times / Math.round(times) - 1) < 0.1;
}

function reportCoursed(coursed: readonly Trial[]): void {
  const measured = coursed.filter(({ found }) => found !== null);
  const errors = measured.map(errorOf).sort((a, b) => a - b);
  const within = coursed.filter((trial) => errorOf(trial) <= 0.01).length;
  console.log(
    `  coursed ${coursed.length}, measured ${measured.length}; error of those: median ` +
      `${percent(quantile(errors, 0.5))}, 95th percentile ${percent(quantile(errors, 0.95))}, ` +
      `largest ${percent(quantile(errors, 1))}`,
  );
  console.log(
    `  within 1 % of the truth ${within} of ${coursed.length} (${percent(within / coursed.length)}); ` +
      `octave errors ${coursed.filter(isOctave).length}`,
  );
  for (const from of [0.7, 0.9, 0.97]) {
    const sure = measured.filter(({ confidence }) => confidence >= from);
    const right = sure.filter((trial) => errorOf(trial) <= 0.01).length;
    console.log(`  confidence ${from} or more: ${sure.length}, right within 1 %: ${right}`);
  }
  const held = measured.filter((trial) => errorOf(trial) <= trial.spread).length;
  console.log(`  within twice its standard uncertainty ${percent(held / measured.length)}`);
  const offsets = measured
    .flatMap(({ offsetError }) => (offsetError === null ? [] : [offsetError]))
    .sort((a, b) => a - b);
  if (offsets.length > 0) {
    console.log(
      `  bed joint off its place, in courses: median ${quantile(offsets, 0.5).toFixed(3)}, ` +
        `95th percentile ${quantile(offsets, 0.95).toFixed(3)}`,
    );
  }
  reportBonds(measured);
  for (const trial of coursed) {
    if (errorOf(trial) <= 0.01) continue;
    const found = trial.found === null ? 'refused' : `${trial.found.toFixed(2)} px`;
    console.log(`    ${trial.name}: true ${trial.truth?.toFixed(2) ?? '-'} px, ${found}`);
  }
}

function reportBonds(measured: readonly Trial[]): void {
  const named = measured.filter(({ trueBond, bond }) => trueBond !== null && bond !== null);
  const right = named.filter(({ trueBond, bond }) => sameJoints(bond) === sameJoints(trueBond));
  const bricks = measured.flatMap(({ brickError }) =>
    brickError === null ? [] : [Math.abs(brickError)],
  );
  console.log(
    `  bond named ${named.length}, rightly ${right.length}; brick length found ${bricks.length}, ` +
      `within 2 % ${bricks.filter((error) => error <= 0.02).length}`,
  );
}

// Header bond and stretcher bond of short bricks have the same joints.
const sameJoints = (bond: string | null): string | null => (bond === 'header' ? 'stretcher' : bond);

async function benchGenerated(seed: number, count: number): Promise<void> {
  const trials: Trial[] = [];
  for (const [i, sample] of sampleWalls(seed, count).entries()) {
    const { raster, truth } = await sample.draw();
    trials.push(tryPicture(`wall ${i} ${truth.bond} ${truth.format.id}`, raster, truth));
  }
  for (const [i, sample] of sampleTextures(seed, Math.ceil(count / 2)).entries()) {
    const { raster, truth } = await sample.draw();
    trials.push(tryPicture(`texture ${i} ${truth.texture}`, raster, { coursePx: null }));
  }
  report(`generated from seed ${seed} (${count} walls)`, trials);
}

interface Manifest {
  readonly pictures: readonly {
    readonly file: string;
    readonly bond: string | null;
    readonly coursePx: { readonly x: number | null; readonly y: number | null };
    readonly brickPx: number | null;
  }[];
}

async function benchFolder(folder: string): Promise<void> {
  const manifest: Manifest = JSON.parse(
    readFileSync(join(folder, 'manifest.json'), 'utf8'),
  ) as Manifest;
  const trials: Trial[] = [];
  for (const { file, bond, coursePx, brickPx } of manifest.pictures) {
    // What repeats along x only is neither coursed nor bare: it must not be measured, that is all.
    const raster = await decodePhoto(readFileSync(join(folder, file)));
    const truth = { coursePx: coursePx.y, brickPx, ...(bond === null ? {} : { bond }) };
    trials.push(tryPicture(file, raster, truth));
  }
  report(folder, trials);
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
  console.log(`24 megapixels, courses of 62.5 px: median ${(times[2] ?? NaN).toFixed(0)} ms of 5`);
}

/**
 * How true courses are found: on generated walls and textures never seen while tuning, and on a
 * folder of real pictures that holds a `manifest.json` with their truth, where one is named.
 *
 * @param words - A folder, a number of walls (200 unless told), a first seed other than that of
 *   the unseen range (`seed=4000000`).
 */
export async function benchMeasure(words: readonly string[]): Promise<void> {
  const count = Number(words.find((word) => /^\d+$/.test(word)) ?? 200);
  const folder = words.find((word) => existsSync(join(word, 'manifest.json')));
  const told = words.find((word) => /^seed=\d+$/.test(word));
  const seed = told === undefined ? seedRanges.unseen : Number(told.slice('seed='.length));
  if (folder !== undefined) await benchFolder(folder);
  await benchGenerated(seed, count);
  benchSpeed();
}
