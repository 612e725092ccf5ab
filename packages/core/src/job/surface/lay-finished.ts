import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { type AxisToPlan, planTile } from '../../fill/plan-tile.js';
import { repeatLines } from '../../fill/repeat-tile.js';
import type { OpenedPhoto } from '../../read/open-photo.js';
import type { FoundSidecar } from '../../read/read-sidecar.js';
import { nothingToMend } from '../../seam/mend/nothing-to-mend.js';
import { px } from '../../units/units.js';
import { beginStep } from '../job-options.js';
import { judgeDrift } from './judge-drift.js';
import { judgePrint } from './judge-print.js';
import type { MadeSurface, MakeSurfaceOptions } from './made-surface.js';
import type { TileRefusal } from './make-tile.js';
import { placeOrigin } from './place-origin.js';
import { refuseDoubtful } from '../open/refuse-doubtful.js';
import { mostDots, refuseSmall } from './refuse-small.js';
import { remindOfTerms } from './remind-of-terms.js';

/**
 * Bring a photo that is a tile as it is to print, in one resampling, straight to the dots that it is laid
 * in. Nothing of it is looked at again.
 *
 * @param opened - The photo.
 * @param kept - What is known of it.
 * @param options - The scale, the resolution.
 * @returns What repeats, or why the photo does not allow it; null where it is more than can be worked on at
 * once.
 * @throws TextureError when not all of it can be decoded.
 */
export async function layFinished(
  opened: OpenedPhoto,
  kept: FoundSidecar,
  options: MakeSurfaceOptions,
): Promise<Outcome<MadeSurface, TileRefusal | 'scale-doubtful'> | null> {
  const { dpi, even, method } = options;
  const { look: photo } = opened;
  const { path, width, height } = photo;
  const { measurement } = kept;
  const { lattice } = measurement;
  const doubtful = refuseDoubtful(measurement, path);
  if (doubtful) return doubtful;
  const resolution = judgePrint(measurement, options);
  const { factor } = resolution;
  if (width * factor.x * height * factor.y > mostDots) return null;
  const small = refuseSmall(photo, factor);
  if (small) return { ...small, message: `${showPath(path)}: ${small.message}` };

  beginStep('scaling', options);
  const axis = (which: 'x' | 'y', length: number): AxisToPlan => ({
    length,
    repeat: lattice?.repeat[which] ?? null,
    factor: factor[which],
    seamless: true,
  });
  const planned = planTile({ x: axis('x', width), y: axis('y', height) }, { resolution: dpi });
  if (!planned.ok) return planned;
  const plan = planned.value;
  const raster = repeatLines(await opened.lines(), plan);
  const worked = {
    x: { ...plan.x, workPeriod: px(width) },
    y: { ...plan.y, workPeriod: px(height) },
  };
  const joints = lattice && { axis: lattice.axis, offset: lattice.courseOffset };
  return {
    ok: true,
    value: {
      photo,
      measurement,
      lattice,
      factor,
      made: {
        raster,
        light: even ? { strengthPercent: 0, lightest: null, darkest: null } : null,
        plan,
        origin: placeOrigin(joints, worked, { x: 0, y: 0 }),
      },
    },
    warnings: [
      ...photo.warnings,
      ...resolution.warnings,
      nothingToMend(method),
      ...judgeDrift(plan),
      ...remindOfTerms(path, kept),
    ],
  };
}
