import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Outcome } from '../../errors/outcome.js';
import type { AxisPlan } from '../../fill/plan-tile.js';
import { pageMm } from '../../fill/plan-tile.js';
import { readNotes } from '../../read/read-notes.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Dpi, printMm, px, toDots } from '../../units/units.js';
import { judgeDrift } from '../surface/judge-drift.js';
import type { MadeSurface } from '../surface/made-surface.js';
import { remindOfTerms } from '../surface/remind-of-terms.js';
import {
  checkExtend,
  type LayExtensionOptions,
  type ExtendRefusal,
  layExtension,
} from './lay-extension.js';
import type { ExtensionPlan } from './plan-extension.js';

/** How photos become a surface that is larger than they are. */
export interface ExtendSurfaceOptions extends LayExtensionOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Print resolution. */
  readonly dpi: Dpi;
}

// A tenth more wall brings whole repeats nearer to whole dots: a gable of many tiles drifts less.
const spare = 0.1;

/**
 * Make a surface of one photo or several that is larger than they are, and repeats.
 *
 * @param paths - The photos. The first says what light and colour it has.
 * @param options - How large, what is known of them, the scale, the resolution.
 * @returns What repeats, or why the photos do not allow it.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function extendSurface(
  paths: readonly string[],
  options: ExtendSurfaceOptions,
): Promise<Outcome<MadeSurface, ExtendRefusal>> {
  const wish = checkExtend(paths, options);
  const laid = await layExtension(paths, wish, { ...options, spare });
  if (!laid.ok) return laid;
  const { tile, plan: planned, photo, first, sources, taken } = laid.value;
  const { measurement } = first;
  if (measurement === null) throw new Error('a surface of photos that nobody measured');
  const plan = planOf(planned, options.dpi);
  const terms = await Promise.all(
    sources.map(async (source) =>
      remindOfTerms(source.path, await readNotes(source).catch(() => null)),
    ),
  );
  return {
    ok: true,
    value: {
      photo: { ...photo, raster: tile },
      measurement,
      lattice: first.lattice,
      factor: planned.factor,
      // It begins in a bed joint.
      made: { raster: tile, light: taken[0]?.light ?? null, plan, origin: { x: 0, y: 0 } },
    },
    warnings: [...laid.warnings, ...judgeDrift(plan), ...terms.flat()],
  };
}

function planOf(planned: ExtensionPlan, dpi: Dpi): PerAxis<AxisPlan> {
  const page = toDots(printMm(pageMm), dpi);
  const along = (axis: 'x' | 'y', length: number): AxisPlan => {
    const scaleError = planned.scaleError[axis];
    return {
      repeats: planned.repeats[axis],
      copies: 1,
      period: px(length),
      scaleError,
      drift: Math.abs(scaleError) * page,
      workPeriod: px(length),
      workFactor: planned.factor[axis],
    };
  };
  return { x: along('x', planned.width), y: along('y', planned.height) };
}
