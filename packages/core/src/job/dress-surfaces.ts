import type { CourseReference } from '../catalogue/course-reference.js';
import type { NamedScale } from '../catalogue/find-scale.js';
import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { OpenedPhoto } from '../read/open-photo.js';
import { readSidecar } from '../read/read-sidecar.js';
import type { Dpi } from '../units/units.js';
import { type DressedPicture, dressPicture } from './dress-picture.js';
import { type LaidOutline, planSurface, type SurfacePlan } from './dress-plan.js';
import type { JobOptions } from './job-options.js';
import type { MadeSurface, MakeSurfaceOptions, SurfaceRefusal } from './made-surface.js';
import { makeSurface, openForSurface } from './make-surface.js';

/** A surface, and the outlines that it covers. */
export interface DressedWith {
  /** Where its photo lies. */
  readonly path: string;
  /** The outlines. */
  readonly laid: readonly LaidOutline[];
  /** What repeats. */
  readonly surface: MadeSurface;
  /** What of it is where. */
  readonly plan: SurfacePlan;
  /** The one picture of it. */
  readonly picture: DressedPicture;
}

/** How surfaces are made. */
export interface DressSurfacesOptions extends JobOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** What the courses are of photos with nothing kept beside them. */
  readonly course?: CourseReference;
  /** Whether slow changes of light are taken out. */
  readonly even: boolean;
  /** Where pictures go. */
  readonly mode: 'link' | 'embed';
}

/**
 * Make each surface, and the one picture of it that its outlines need.
 *
 * @param wanted - Outlines by the photo that they are covered with.
 * @param options - How.
 * @returns The surfaces, or why one of the photos makes none.
 * @throws TextureError when a file does not allow it.
 */
export async function dressSurfaces(
  wanted: ReadonlyMap<string, readonly LaidOutline[]>,
  options: DressSurfacesOptions,
): Promise<Outcome<readonly DressedWith[], SurfaceRefusal>> {
  const { dpi, mode } = options;
  const paths = [...wanted.keys()];
  const pending: Promise<DressedWith>[] = [];
  const warnings: Warning[] = [];
  // The decoder works on the next photo, and the encoder on the last picture, in threads of their own.
  let opening = open(paths[0]);
  for (const [i, [path, laid]] of [...wanted].entries()) {
    const opened = await opening;
    opening = open(paths[i + 1]);
    if (opened === null) continue;
    const made = await makeSurface(opened, await known(opened, options));
    if (!made.ok) return made;
    const tile = made.value.made;
    const plan = planSurface(laid, tile.raster, dpi);
    const picture = dressPicture(tile, plan, { dpi, mode, path });
    pending.push(
      quiet(picture.then((done) => ({ path, laid, surface: made.value, plan, picture: done }))),
    );
    warnings.push(...made.warnings);
  }
  return { ok: true, value: await Promise.all(pending), warnings };
}

// One word on courses is said of several photos: it stands in for what was not kept beside them, and
// does not contradict what was.
async function known(
  opened: OpenedPhoto,
  { course, ...options }: DressSurfacesOptions,
): Promise<MakeSurfaceOptions> {
  const kept = course === undefined ? null : await readSidecar(opened.look);
  return { ...options, method: 'auto', ...(kept === null && course && { course }) };
}

function open(path: string | undefined): Promise<OpenedPhoto | null> {
  return quiet(path === undefined ? Promise.resolve(null) : openForSurface(path));
}

// Whoever awaits it is told of what went wrong; nobody may.
function quiet<Value>(promise: Promise<Value>): Promise<Value> {
  promise.catch(() => undefined);
  return promise;
}
