import { judgeResolution, type ResolutionVerdict } from '../../scale/judge-resolution.js';
import type { Measurement } from '../../surface/measurement.js';
import { findJoint } from './find-joint.js';
import type { MakeSurfaceOptions } from './made-surface.js';

/**
 * Judge how fine a measured photo comes to be on paper, and its mortar.
 *
 * @param measurement - Of the photo.
 * @param print - The model's scale, and the printer's dots.
 * @returns Its resolution there, and what the user should know of it.
 */
export function judgePrint(
  measurement: Measurement,
  print: Pick<MakeSurfaceOptions, 'scale' | 'dpi'>,
): ResolutionVerdict {
  const { mmPerPx, reference } = measurement;
  const { scale, dpi } = print;
  return judgeResolution({ mmPerPx, scale: scale.ratio, dpi, joint: findJoint(reference) });
}
