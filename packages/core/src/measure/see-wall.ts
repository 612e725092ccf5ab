import { cropRaster } from '../raster/crop-raster.js';
import type { Raster } from '../raster/raster.js';
import { shrinkRaster } from '../raster/shrink-raster.js';
import type { Rectification } from '../surface/measurement.js';
import { fitWall } from './fit-wall.js';
import type { FollowedCourse } from './joints/follow-course.js';
import { followLevel } from './follow-level.js';
import { isBetter } from './is-better.js';
import { lookLevel } from './look-level.js';
import { lookLimits } from './look-limits.js';
import { confidenceOf, type Part, type SeenWall, type SeeOptions } from './seen-wall.js';
import { guessStand, type Sight } from './slant/guess-stand.js';
import { type Straighten, toRectification } from './slant/judge-stand.js';
import { seeDirections } from './slant/see-directions.js';
import { toCamera } from './to-camera.js';

const { longest, leastCourse } = lookLimits;
/** The middle of a picture smaller than this shows no more than all of it. */
const leastPart = 500;
/** Below this, not even a wall made level would be believed. */
const worthwhile = 0.02;
/** Less slant than this, as a change over half the photo's diagonal, is left to the joints. */
const slight = 0.006;

/**
 * See the courses of a wall however it lies before the camera: guess from the directions of its
 * joints how to make it level, follow the joints there, and fit the wall to all of them.
 *
 * @param photo - Upright.
 * @param options - How.
 * @returns The courses, or null where none are seen.
 */
export function seeWall(photo: Raster, options: SeeOptions): SeenWall | null {
  let best: SeenWall | null = null;
  let whole: Part | null = null;
  for (const part of listParts(photo)) {
    whole ??= part;
    best = seeBetter(part, { whole, best, options });
    const isFine = best !== null && best.track.placed.course < leastCourse && best.step > 1;
    if (best !== null && confidenceOf(best) > options.enough && !isFine) break;
  }
  return confidenceOf(best) > options.least ? best : null;
}

interface SoFar {
  readonly whole: Part;
  readonly best: SeenWall | null;
  readonly options: SeeOptions;
}

function seeBetter(part: Part, { whole, best, options }: SoFar): SeenWall | null {
  const seen = seePart(part, options, best);
  if (seen === null || seen === best) return best;
  const wide = part === whole ? seen : widen(whole, seen, options);
  return isBetter(wide, best) ? wide : best;
}

// What the middle shows, made level by what it shows, may hold right across.
function widen(whole: Part, seen: SeenWall, options: SeeOptions): SeenWall {
  const { fit, rectification } = seen;
  const course = (seen.track.placed.course * seen.step) / whole.step;
  if (fit === null || course < leastCourse || confidenceOf(seen) < options.least) return seen;
  const wide = followLevel(
    whole,
    { ...seen, track: scaleTrack(seen.track, course) },
    rectification,
  );
  if (wide === null || confidenceOf(wide) < confidenceOf(seen)) return seen;
  const sight = guess(whole, toCamera(whole.photo, options.focal).focal);
  const perpends = sight?.perpends ?? [];
  return fitWall(whole, wide, { ...options, sight: { stand: fit.stand, perpends } });
}

function scaleTrack(track: FollowedCourse, course: number): FollowedCourse {
  const { placed, joint } = track;
  return { ...track, joint: (joint * course) / placed.course, placed: { ...placed, course } };
}

// All of it at a size that shows most courses; then the middle, as fine as it is: there a lens bends
// little, and fine courses show.
function* listParts(photo: Raster): Generator<Part> {
  const { width, height } = photo;
  const wanted = Math.max(1, Math.floor(Math.max(width, height) / longest));
  // No photo is so narrow that nothing of it would be left.
  const step = Math.min(wanted, width, height);
  yield { raster: shrinkRaster(photo, step), step, left: 0, top: 0, photo };
  const most = step === 1 ? Math.max(leastPart, Math.max(width, height) / 2) : longest;
  const [w, h] = [Math.min(width, Math.round(most)), Math.min(height, Math.round(most))];
  if (w === width && h === height) return;
  const [x, y] = [(width - w) >> 1, (height - h) >> 1];
  const raster = cropRaster(photo, { x, y, width: w, height: h });
  yield { raster, step: 1, left: x, top: y, photo };
}

function seePart(part: Part, options: SeeOptions, before: SeenWall | null): SeenWall | null {
  const { focal } = toCamera(part.photo, options.focal);
  const sight = options.straighten === 'none' ? null : guess(part, focal);
  let best = before;
  for (const rectification of listSlants(part, sight, options.straighten)) {
    const seen = lookLevel(part, rectification, options.enough);
    if (seen !== null && isBetter(seen, best)) best = seen;
    if (confidenceOf(best) > options.enough) break;
  }
  if (best === null || best === before || confidenceOf(best) < worthwhile) return best;
  return options.straighten === 'none' ? best : fitWall(part, best, { ...options, sight });
}

function guess(part: Part, focal: number): Sight | null {
  const { raster, step, left, top, photo } = part;
  const { beds, perpends } = seeDirections(raster);
  const place = <Seen extends { x: number; y: number }>(seen: Seen): Seen => ({
    ...seen,
    x: (seen.x + left) * step,
    y: (seen.y + top) * step,
  });
  const directions = { beds: beds.map(place), perpends: perpends.map(place) };
  return guessStand(directions, photo, focal);
}

function listSlants(
  { photo }: Part,
  sight: Sight | null,
  straighten: Straighten,
): (Rectification | null)[] {
  if (sight === null) return [null];
  const { slope, across, down } = sight.stand;
  if (Math.max(Math.abs(slope), 2 * Math.abs(across), 2 * Math.abs(down)) < slight) return [null];
  const stand = straighten === 'full' ? sight.stand : { ...sight.stand, across: 0, down: 0 };
  return [toRectification(stand, 0, photo), null];
}
