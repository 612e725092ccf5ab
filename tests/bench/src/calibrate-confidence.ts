import {
  confidenceTerms,
  confidenceWeights,
} from '../../../packages/core/dist/measure/joints/confidence-terms.js';
import { seeWall } from '../../../packages/core/dist/measure/see-wall.js';
import { toParts } from '../../../packages/core/dist/measure/to-parts.js';
import { chanceOfRight } from '../../../packages/core/dist/measure/joints/spread-of-course.js';
import { seedRanges } from '@gaugerod/fixtures';
import { drawKinds, kindIds, type Picture } from './draw-kinds.js';
import { type Case, chanceOf, fitLogistic } from './fit-logistic.js';
import { areaOf, moveBetween } from './move-between.js';
import { printReliability } from './print-reliability.js';
import { readWords } from './read-words.js';

interface Track extends Case {
  /** That so many joints place the mean course within 1 %. */
  readonly placed: number;
  /** Whether the scale is within 1 %. */
  readonly exact: boolean;
}

/** A course as near as this is the course, and not another height; how well it lies is judged apart. */
const same = 0.04;

// Under no confidence at all, so that what would be refused teaches, too.
function follow({ raster, truth }: Picture): Track | null {
  const seen = seeWall(raster, { straighten: 'full', least: 0, enough: 0.9 });
  if (seen === null) return null;
  const { placed, weight } = seen.track;
  const move = moveBetween(
    { found: seen.rectification, truth: truth.rectification, size: raster },
    { x: 0.5, y: 0.5 },
  );
  const parts = toParts(seen, placed.uncertainty / placed.course);
  const across = areaOf(move) / Math.hypot(move.right.x, move.right.y);
  const off =
    truth.coursePx === null
      ? Infinity
      : Math.abs((across * truth.coursePx) / (placed.course * seen.step) - 1);
  return {
    terms: confidenceTerms(weight),
    placed: chanceOfRight(
      Math.hypot(parts.fit, parts.perspective, parts.lens),
      placed.joints.length,
    ),
    right: off <= same,
    exact: off <= 0.01,
  };
}

async function gather(seed: number, counts: ReadonlyMap<string, number>): Promise<Track[]> {
  const tracks: (Track | null)[] = [];
  for (const kind of kindIds) {
    for (const draw of drawKinds[kind](seed, counts.get(kind) ?? usual[kind])) {
      const picture = await draw();
      // Upright work is the same lying down.
      if (picture.truth.axis === 'y') tracks.push(follow(picture));
    }
  }
  return tracks.filter((track) => track !== null);
}

const usual = { walls: 40, views: 80, works: 60, textures: 52, tempting: 48 } as const;

/**
 * Fit confidence anew: the logistic on what tracks of joints say for themselves, made on one range of
 * seeds and printed ready for `confidenceWeights`, and reliability diagrams of the old and the new on
 * another.
 *
 * @param words - How many of a kind (`walls=40 views=80 works=60 textures=52 tempting=48` unless
 *   told).
 */
export async function calibrateConfidence(words: readonly string[]): Promise<void> {
  const { counts, seed } = readWords(words, seedRanges.tuning);
  const made = await gather(seed, counts);
  const weights = fitLogistic(made);
  const right = made.filter((track) => track.right).length;
  console.log(`${made.length} tracks, ${right} of them on the course`);
  console.log(`[${weights.map((weight) => Number(weight.toFixed(2))).join(', ')}]`);
  const held = await gather(seedRanges.test, counts);
  const show = (title: string, by: readonly number[]): void => {
    console.log(title);
    printReliability(
      held.map(({ terms, placed, exact }) => ({
        confidence: chanceOf(by, terms) * placed,
        right: exact,
      })),
    );
  };
  show('held out, as it is now', confidenceWeights);
  show('held out, fitted anew', weights);
}
