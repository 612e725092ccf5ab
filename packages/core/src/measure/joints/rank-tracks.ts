import { dividesWell } from './divides-well.js';
import { type Evidence, findEvidence } from './find-evidence.js';
import type { Cells } from './fold-rows.js';
import { type FollowedCourse, followCourse } from './follow-course.js';
import { type Candidate, scorePeriods } from './score-periods.js';

// Lower ones are not followed.
const shortestCourse = 4.8;
const bands = Math.SQRT2;
/** Deviation of a joint as a share of the course: mortar, and the thin lines of slates or boards. */
const jointShares = [1 / 10, 1 / 22] as const;

/** Of candidates no further apart than this, the best alone is followed. */
const near = Math.exp(0.05);

interface Trial {
  readonly candidate: Candidate;
  readonly evidence: Evidence;
}

/**
 * Try course heights from 4.8 px to half the picture, follow the joints of the best few, and rank
 * what comes of it.
 *
 * @param cells - The picture, folded.
 * @returns Best first; empty where the picture is too low to hold three joints.
 */
export function rankTracks(cells: Cells): FollowedCourse[] {
  const ranked: FollowedCourse[] = [];
  for (const { candidate, evidence } of listTrials(cells)) {
    const followed = followCourse(cells, candidate, evidence);
    if (followed !== null) ranked.push(followed);
  }
  ranked.sort((a, b) => b.weight.rank - a.weight.rank);
  return preferShorter(ranked);
}

function preferShorter(ranked: FollowedCourse[]): FollowedCourse[] {
  let [best] = ranked;
  for (const other of ranked) {
    if (best && dividesWell(other, best)) best = other;
  }
  return best ? [best, ...ranked.filter((other) => other !== best)] : ranked;
}

function listTrials(cells: Cells): Trial[] {
  const longest = cells.rows / 2.3;
  const trials: Trial[] = [];
  for (let course = shortestCourse; course < longest; course *= bands) {
    const to = Math.min(longest, course * bands);
    const middle = Math.sqrt(course * to);
    for (const share of jointShares) {
      // A joint under a pixel is seen no better through a narrower filter.
      if (middle * share < 0.9 && share !== jointShares[0]) continue;
      const evidence = findEvidence(cells, middle, middle * share);
      for (const candidate of scorePeriods(evidence, course, to)) {
        trials.push({ candidate, evidence });
      }
    }
  }
  trials.sort((a, b) => b.candidate.score - a.candidate.score);
  const kept: Trial[] = [];
  for (const trial of trials) {
    if (kept.length >= 10) break;
    if (!kept.some((other) => isNear(other.candidate, trial.candidate))) kept.push(trial);
  }
  return kept;
}

function isNear(a: Candidate, b: Candidate): boolean {
  return a.course < near * b.course && b.course < near * a.course;
}
