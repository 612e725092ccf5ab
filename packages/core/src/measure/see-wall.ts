import { cropRaster } from '../raster/crop-raster.js';
import type { Raster } from '../raster/raster.js';
import { shrinkRaster } from '../raster/shrink-raster.js';
import { toLevelPoint, toPhotoPoint } from '../surface/level-point.js';
import type { Rectification } from '../surface/measurement.js';
import { type FollowedCourse, followCourse } from './follow-course.js';
import { type Cells, foldRows, type Shown, type View } from './fold-rows.js';
import type { FocalLength } from './find-focal-length.js';
import { rankTracks } from './rank-tracks.js';
import { type BedPoints, fitStand, type StandFit } from './slant/fit-stand.js';
import { guessStand, type Sight } from './slant/guess-stand.js';
import type { PhotoSize } from './slant/lay-plane.js';
import { judgeStand, type Straighten, toRectification } from './slant/judge-stand.js';
import { levelRaster } from './slant/level-raster.js';
import { seeDirections } from './slant/see-directions.js';

/** Courses seen in a photo, and how the wall lies before the camera. */
export interface SeenWall {
  /** The joints, in pixels of `raster`. */
  readonly track: FollowedCourse;
  /** What of the picture was looked at. */
  readonly view: View;
  /** The picture that they were followed in, level and perhaps made smaller. */
  readonly raster: Raster;
  /** The same, folded. */
  readonly cells: Cells;
  /** Pixels of the photo to one of `raster`, each way. */
  readonly step: number;
  /** Where `raster` begins in the level picture, in its own pixels. */
  readonly left: number;
  /** The same, down. */
  readonly top: number;
  /** Which rows of each column of `raster` the photo shows. */
  readonly shown: Shown;
  /** From photo to level picture, or null where the photo is level. */
  readonly rectification: Rectification | null;
  /** How the wall lies, or null where it was not asked. */
  readonly fit: StandFit | null;
}

/** How a wall may be looked for. */
export interface SeeOptions {
  /** How far the photo may be straightened. */
  readonly straighten: Straighten;
  /** Focal length of the photo, where the camera's is known. */
  readonly focal?: FocalLength;
  /** Under this confidence nothing is seen. */
  readonly least: number;
  /** Above this, there is no need to look in another way. */
  readonly enough: number;
}

/** Longer sides are made smaller first: courses seldom need more. */
const longest = 1600;
/** A course of fewer pixels is placed better in a larger picture. */
const fine = 9;
/** The middle of a picture smaller than this shows no more than all of it. */
const leastPart = 500;
/** Focal length taken, in units of the long side, where the camera's is not known; (k = 1). */
const usualFocal = { sides: 1, uncertainty: 0.4 };
/** No focal length is known better: a picture may have been cut a little. */
const leastOpen = 0.03;

interface Part {
  readonly raster: Raster;
  readonly step: number;
  // Where it begins in the photo, in its own pixels.
  readonly left: number;
  readonly top: number;
  readonly photo: PhotoSize;
}

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
    const seen = widen(whole, seePart(part, options, best), { before: best, options });
    if (seen !== null && confidenceOf(seen) > confidenceOf(best)) best = seen;
    const isFine = best !== null && best.track.placed.course < fine && best.step > 1;
    if (best !== null && confidenceOf(best) > options.enough && !isFine) break;
  }
  if (best === null || !(confidenceOf(best) > options.least)) return null;
  return best;
}

// What the middle shows, made level by what it shows, may hold right across.
function widen(
  whole: Part,
  seen: SeenWall | null,
  { before, options }: { readonly before: SeenWall | null; readonly options: SeeOptions },
): SeenWall | null {
  if (seen === null || seen === before || seen.fit === null) return seen;
  const course = (seen.track.placed.course * seen.step) / whole.step;
  if (seen.step === whole.step && seen.raster === whole.raster) return seen;
  if (course < fine || confidenceOf(seen) < options.least) return seen;
  const rectification = seen.rectification;
  const wide = follow(whole, { ...seen, track: scaleTrack(seen.track, course) }, rectification);
  if (wide === null || confidenceOf(wide) < confidenceOf(seen)) return seen;
  return refine(whole, { ...wide, fit: seen.fit }, { sight: null, options });
}

function scaleTrack(track: FollowedCourse, course: number): FollowedCourse {
  const { placed, joint } = track;
  return { ...track, joint: (joint * course) / placed.course, placed: { ...placed, course } };
}

const confidenceOf = (seen: SeenWall | null): number => seen?.track.weight.confidence ?? 0;

// All of it at a size that shows most courses; then the middle, as fine as it is: there a lens bends
// little, and fine courses show.
function* listParts(photo: Raster): Generator<Part> {
  const { width, height } = photo;
  const step = Math.max(1, Math.floor(Math.max(width, height) / longest));
  yield { raster: shrinkRaster(photo, step), step, left: 0, top: 0, photo };
  const most = step === 1 ? Math.max(leastPart, Math.max(width, height) / 2) : longest;
  const [w, h] = [Math.min(width, Math.round(most)), Math.min(height, Math.round(most))];
  if (w === width && h === height) return;
  const [x, y] = [(width - w) >> 1, (height - h) >> 1];
  const raster = cropRaster(photo, { x, y, width: w, height: h });
  yield { raster, step: 1, left: x, top: y, photo };
}

function seePart(part: Part, options: SeeOptions, before: SeenWall | null): SeenWall | null {
  const focal = toFocal(part.photo, options.focal);
  const sight = options.straighten === 'none' ? null : guess(part, focal.length);
  let best = before;
  for (const rectification of listSlants(part, sight, options.straighten)) {
    const seen = look(part, rectification, options);
    if (seen !== null && confidenceOf(seen) > confidenceOf(best)) best = seen;
    if (confidenceOf(best) > options.enough) break;
  }
  if (best === null || best === before || confidenceOf(best) < worthwhile) return best;
  return options.straighten === 'none' ? best : refine(part, best, { sight, options });
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

// In units of half the photo's diagonal.
function toFocal({ width, height }: PhotoSize, known?: FocalLength): Focal {
  const half = Math.hypot(width, height) / 2;
  if (known === undefined) {
    const { sides, uncertainty } = usualFocal;
    return { length: (sides * Math.max(width, height)) / half, spread: uncertainty };
  }
  return { length: known.px / half, spread: Math.max(leastOpen, known.uncertainty) };
}

interface Focal {
  readonly length: number;
  readonly spread: number;
}

/** Below this, not even a wall made level would be believed. */
const worthwhile = 0.02;
/** Less slant than this, as a change over half the diagonal, is left to the joints. */
const slight = 0.006;

function listSlants(
  { photo }: Part,
  sight: Sight | null,
  straighten: Straighten,
): (Rectification | null)[] {
  if (sight === null) return [null];
  const { slope, across, down, focal } = sight.stand;
  if (Math.max(Math.abs(slope), 2 * Math.abs(across), 2 * Math.abs(down)) < slight) return [null];
  const stand = straighten === 'full' ? sight.stand : { slope, across: 0, down: 0, focal };
  return [toRectification(stand, 0, photo), null];
}

// Mortar no lighter or darker than its bricks is still of another colour.
function look(
  part: Part,
  rectification: Rectification | null,
  { enough }: SeeOptions,
): SeenWall | null {
  const level = makeLevel(part, rectification);
  if (level === null) return null;
  let best: SeenWall | null = null;
  for (const view of ['lightness', 'warmth'] as const) {
    const cells = foldRows(level.raster, { view, shown: level.shown });
    const [track] = rankTracks(cells);
    if (track && track.weight.confidence > confidenceOf(best)) {
      best = { ...level, track, view, cells, step: part.step, rectification, fit: null };
    }
    if (confidenceOf(best) > enough) break;
  }
  return best;
}

type Level = Pick<SeenWall, 'raster' | 'left' | 'top' | 'shown'>;

function makeLevel(part: Part, rectification: Rectification | null): Level | null {
  const { raster, step, left, top, photo } = part;
  if (rectification !== null) {
    return levelRaster(raster, { rectification, size: photo, step, left, top });
  }
  const from = new Int32Array(raster.width);
  const to = new Int32Array(raster.width).fill(raster.height);
  return { raster, left, top, shown: { from, to } };
}

// Joints say more of a wall than directions do; level by them, they are followed further.
function refine(
  part: Part,
  first: SeenWall,
  { sight, options }: { readonly sight: Sight | null; readonly options: SeeOptions },
): SeenWall {
  let best = first;
  const { length: focal, spread: focalSpread } = toFocal(part.photo, options.focal);
  let stand = sight?.stand ?? first.fit?.stand ?? { slope: 0, across: 0, down: 0, focal };
  for (let round = 0; round < 4; round++) {
    const points = toBedPoints(part, best);
    const fit = fitStand(points, { from: stand, perpends: sight?.perpends ?? [], focalSpread });
    stand = { ...fit.stand, focal };
    const rectification = judgeStand(fit, part.photo, options.straighten);
    if (isSame(rectification, best.rectification, part)) return { ...best, fit };
    // Of a wall that is not sure yet, another course height may show better once it is level.
    const again = confidenceOf(best) < options.enough;
    const next = again ? look(part, rectification, options) : follow(part, best, rectification);
    if (next === null || confidenceOf(next) < 0.5 * confidenceOf(best)) return { ...best, fit };
    best = { ...next, fit };
  }
  return best;
}

function follow(
  part: Part,
  { track, view }: SeenWall,
  rectification: Rectification | null,
): SeenWall | null {
  const level = makeLevel(part, rectification);
  if (level === null) return null;
  const cells = foldRows(level.raster, { view, shown: level.shown });
  const { course } = track.placed;
  const next = followCourse(cells, { ...track, course });
  if (next === null) return null;
  return { ...level, track: next, view, cells, step: part.step, rectification, fit: null };
}

// Half a pixel of what is looked at.
function isSame(a: Rectification | null, b: Rectification | null, part: Part): boolean {
  if (a === null || b === null) return a === b;
  const { photo, step } = part;
  return [0, 0.5, 1].every((x) =>
    [0, 0.5, 1].every((y) => {
      const point = { x: x * photo.width, y: y * photo.height };
      const [p, q] = [toLevelPoint(a, photo, point), toLevelPoint(b, photo, point)];
      return Math.hypot(p.x - q.x, p.y - q.y) < 0.3 * step;
    }),
  );
}

function toBedPoints(part: Part, seen: SeenWall): BedPoints {
  const { k, x, y, weight } = seen.track.placed.points;
  const { photo, step } = part;
  const half = Math.hypot(photo.width, photo.height) / 2;
  const u = new Float64Array(k.length);
  const v = new Float64Array(k.length);
  for (let i = 0; i < k.length; i++) {
    const level = { x: (x[i]! + seen.left) * step, y: (y[i]! + seen.top) * step };
    const at = seen.rectification === null ? level : toPhotoPoint(seen.rectification, photo, level);
    u[i] = (at.x - photo.width / 2) / half;
    v[i] = (at.y - photo.height / 2) / half;
  }
  return { u, v, k, weight };
}
