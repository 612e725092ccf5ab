import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { OpenedPhoto } from '../../read/open-photo.js';
import { readNotes } from '../../read/read-notes.js';
import { inspectSeams, type Seam, seamsOf } from '../../seam/inspect/inspect-seams.js';
import type { PerAxis } from '../../surface/measurement.js';
import { findFew } from '../inspect/find-few.js';
import { findRepeat } from '../measure/find-repeat.js';
import { hintFormats } from '../measure/hint-formats.js';
import { judgeDrift } from './judge-drift.js';
import { judgePrint } from './judge-print.js';
import { judgeSeams } from '../inspect/judge-seams.js';
import type { MadeSurface, MakeSurfaceOptions, SurfaceRefusal } from './made-surface.js';
import { makeTile } from './make-tile.js';
import { measureReduced } from '../measure/measure-reduced.js';
import { openPicture } from '../open/open-picture.js';
import { refuseDoubtful } from '../open/refuse-doubtful.js';
import { remindOfTerms } from './remind-of-terms.js';
import { warnOfCopies } from '../measure/warn-of-copies.js';
import { warnOfFew } from '../inspect/warn-of-few.js';

/**
 * Make a surface of a photo that has to be mended, or of which nobody knows yet that it has not.
 *
 * @param opened - The photo.
 * @param options - What is known of it, the scale, the resolution.
 * @returns What repeats, or why the photo does not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function mendSurface(
  opened: OpenedPhoto,
  options: MakeSurfaceOptions,
): Promise<Outcome<MadeSurface, SurfaceRefusal>> {
  const { path } = opened.look;
  const { photo, found } = await measureReduced(opened, options);
  if (!found.ok) return hintFormats(found, photo, options);
  const { measurement, copies, kept } = found.value;
  const doubtful = refuseDoubtful(measurement, path);
  if (doubtful) return doubtful;
  const resolution = judgePrint(measurement, options);
  const { factor } = resolution;
  const picture = await openPicture(opened, { photo, measurement, factor });
  const plain = kept?.plain === true;
  const repeat = findRepeat({ ...picture, plain }, Math.max(factor.x, factor.y));
  const seen = found.value.seams ?? seamsOf(picture.look);
  const seams = taken(seen, options);
  const made = makeTile(picture, { ...options, ...repeat, seams, factor });
  if (!made.ok) return { ...made, message: `${showPath(path)}: ${made.message}` };
  const { mended, plan } = made.value;
  const { lattice } = repeat;
  // A reference may be given beside what is kept, and the photo's terms stay.
  const notes = kept ?? (await readNotes(photo).catch(() => null));
  const size = {
    width: mended.width / plan.x.workFactor,
    height: mended.height / plan.y.workFactor,
  };
  const shown = inspectSeams(mended);
  const few = findFew(shown, { raster: mended, lattice, size });
  const warnings: Warning[] = [
    ...photo.warnings,
    ...found.warnings,
    ...warnOfCopies(copies, photo),
    ...resolution.warnings,
    ...made.warnings,
    // Where nothing was laid side by side yet: of several seams alike, none stands out.
    ...judgeSeams({ raster: mended, seams: shown, copies }, 'both'),
    ...warnOfFew(few),
    ...judgeDrift(plan),
    ...remindOfTerms(path, notes),
  ];
  return { ok: true, value: { photo, measurement, lattice, factor, made: made.value }, warnings };
}

// Along the other axis its user says that it meets itself.
function taken(seams: PerAxis<Seam>, { mendAxis }: MakeSurfaceOptions): PerAxis<Seam> {
  if (mendAxis === undefined) return seams;
  const other = mendAxis === 'x' ? 'y' : 'x';
  return { ...seams, [other]: { ...seams[other], seamless: true } };
}
