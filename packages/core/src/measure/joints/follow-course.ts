import { type Evidence, findEvidence } from './find-evidence.js';
import type { Cells } from './fold-rows.js';
import { type PlacedJoints, placeJoints } from './place-joints.js';
import { runsThrough } from './runs-through.js';
import { type Candidate, showLook } from './score-periods.js';
import { trackJoints } from './track-joints.js';
import { type TrackWeight, weighTrack } from './weigh-track.js';

// Lower ones hold no row that is all mortar, and half of a fine course passes for one.
const shortestCourse = 4.8;

/** A photo seldom shows more storeys, the windows of which are as even as courses. */
const mostStoreys = 12;

/** Joints followed at one course height, and what they have to say for themselves. */
export interface FollowedCourse extends Candidate {
  /** The joints. */
  readonly placed: PlacedJoints;
  /** How far to believe it. */
  readonly weight: TrackWeight;
}

/**
 * Follow the joints of one course height through a picture.
 *
 * @param cells - The picture, folded.
 * @param candidate - The course height, and how its joints show.
 * @param evidence - Made for such joints.
 * @returns The joints, or null where fewer than three were met, or the edges of things in rows.
 */
export function followCourse(
  cells: Cells,
  candidate: Candidate,
  evidence: Evidence = findEvidence(cells, candidate.course, candidate.joint),
): FollowedCourse | null {
  const { step, extent } = evidence;
  const samples = showLook(evidence, candidate.look);
  const track = trackJoints(samples, candidate.course / step);
  if (track.joints.length < 3) return null;
  const joints = track.joints.map((y) => (y + 0.5) * step);
  const { course, look, joint } = candidate;
  const placed = placeJoints(cells, { joints, course, look, joint });
  if (!(placed.course >= shortestCourse)) return null;
  const weight = weighTrack(placed, { samples, step, extent });
  if (weight.courses <= mostStoreys && !runsThrough(cells, { ...candidate, placed })) return null;
  return { ...candidate, placed, weight };
}
