import { join } from 'node:path';
import { type Dpi, dpi as toDpi } from '../../units/units.js';
import type { DressStep, FillStep, ReliefStep, SlimStep, SurfaceStep } from './build-plan.js';
import type { JobContext } from './job-context.js';
import type { TakenSurface } from './plan-surface.js';
import type { Entry } from './take-keys.js';

/** A part's step, and the steps of its surfaces. */
export interface PlannedPart {
  /** The part's own. */
  readonly step: FillStep | ReliefStep | DressStep | SlimStep;
  /** What it needs first. */
  readonly surfaces: readonly SurfaceStep[];
  /** Extra picture past its edges, mm. */
  readonly bleed: number;
}

/** What a part is planned with. */
export interface PartContext extends JobContext {
  /** By name. */
  readonly surfaces: ReadonlyMap<string, TakenSurface>;
}

/** Of the printer, unless told. */
export const usualDpi: Dpi = toDpi(600);

/** What a part's step is called. */
export interface PartPlace {
  /** Of the step. */
  readonly id: string;
  /** Of the part. */
  readonly name: string;
  /** Of the model. */
  readonly scale: JobContext['scale'];
}

/**
 * Say what a part's step is called.
 *
 * @param kind - Of the step.
 * @param name - Of the part.
 * @param context - Of the job.
 * @returns Its id, its name and its scale.
 */
export function placeOf(kind: string, name: string, context: JobContext): PartPlace {
  const { mark, scale } = context;
  return { id: `${kind}/${mark}${name}`, name, scale };
}

/**
 * Say which file a part is written to.
 *
 * @param name - Of the part.
 * @param entry - As written.
 * @param context - Of the job.
 * @param usual - Its extension, unless told.
 * @returns The file.
 */
export function outputOf(name: string, entry: Entry, context: JobContext, usual: string): string {
  const { file = `${name}.${usual}` } = entry as { readonly file?: string };
  return join(context.output, file);
}
