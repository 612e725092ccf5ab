import type { Raster } from '../raster/raster.js';
import type { Rectification } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';
import type { FocalLength } from './find-focal-length.js';
import type { Cells, Shown, View } from './joints/fold-rows.js';
import type { FollowedCourse } from './joints/follow-course.js';
import type { StandFit } from './slant/fit-stand.js';
import type { Straighten } from './slant/judge-stand.js';

/** What of a photo is looked at, and how finely. */
export interface Part {
  /** As the photo shows it. */
  readonly raster: Raster;
  /** Pixels of the photo to one of `raster`, each way. */
  readonly step: number;
  /** Where it begins in the photo, in its own pixels. */
  readonly left: number;
  /** The same, down. */
  readonly top: number;
  /** The photo. */
  readonly photo: Size<number>;
}

/** A part of a photo, made level. */
export interface LevelPart {
  /** The picture, level and perhaps made smaller. */
  readonly raster: Raster;
  /** Where `raster` begins in the level picture, in its own pixels. */
  readonly left: number;
  /** The same, down. */
  readonly top: number;
  /** Which rows of each column of `raster` the photo shows. */
  readonly shown: Shown;
}

/** Courses seen in a photo, and how the wall lies before the camera. */
export interface SeenWall extends LevelPart {
  /** What was looked at, before it was made level. */
  readonly part: Part;
  /** Pixels of the photo to one of `raster`, each way. */
  readonly step: number;
  /** The joints, in pixels of `raster`. */
  readonly track: FollowedCourse;
  /** What of the picture was looked at. */
  readonly view: View;
  /** The picture that they were followed in, folded. */
  readonly cells: Cells;
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

/**
 * Say how sure courses are.
 *
 * @param seen - As seen, or null where none are.
 * @returns 0 to 1.
 */
export const confidenceOf = (seen: SeenWall | null): number => seen?.track.weight.confidence ?? 0;
