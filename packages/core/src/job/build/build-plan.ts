import type { NamedScale } from '../../catalogue/find-scale.js';
import type { DressDrawingOptions } from '../dress/dress-drawing.js';
import type { FillPhotoOptions } from '../fill/fill-options.js';
import type { MakeSurfaceOptions } from '../surface/made-surface.js';
import type { MakeReliefOptions } from '../relief/relief-options.js';
import type { ExtendValues } from './fields/surface-fields.js';
import type { ToldSetting } from '../settings/settings.js';
import type { SlimDrawingOptions } from '../slim/slim-drawing.js';
import type { SheetPartsOptions } from '../sheet/sheet-parts.js';

interface Step {
  /** Of all steps of a job, no two alike: kind, scale and name. */
  readonly id: string;
  /** As the job file calls it. */
  readonly name: string;
  /** Of the model. */
  readonly scale: NamedScale;
  /** Steps that come first. */
  readonly needs: readonly string[];
  /** Files that it reads, those of other steps left out. */
  readonly inputs: readonly string[];
  /** What of its options was set, in place of something that the job does not say. */
  readonly set: readonly ToldSetting[];
}

/** A photo that is measured, scaled and made to repeat. */
export interface SurfaceStep extends Step {
  /** Tells it from the others. */
  readonly kind: 'surface';
  /** The photo. */
  readonly photo: string;
  /** Others of the same wall that it is joined with, where it is extended. */
  readonly others: readonly string[];
  /** What is known of it, and how it is made: mended, or extended where that is told. */
  readonly options: Omit<MakeSurfaceOptions, 'onProgress' | 'signal'> & {
    readonly extend?: ExtendValues;
  };
}

/** A part that is filled. */
export interface FillStep extends Step {
  /** Tells it from the others. */
  readonly kind: 'fill';
  /** Of the surface's step. */
  readonly surface: string;
  /** The photo of that. */
  readonly photo: string;
  /** How, and where to. */
  readonly options: Omit<FillPhotoOptions, 'onProgress' | 'signal'>;
}

/** A part in relief. */
export interface ReliefStep extends Step {
  /** Tells it from the others. */
  readonly kind: 'relief';
  /** Of the surface's step, or null where it is of one colour. */
  readonly surface: string | null;
  /** The photo of that, or null. */
  readonly photo: string | null;
  /** Files of its layers of card, from the back to the front, beside that of the whole. */
  readonly layers: readonly string[];
  /** What it is, and where to. */
  readonly options: Omit<MakeReliefOptions, 'onProgress' | 'signal'>;
}

/** A drawing that is dressed. */
export interface DressStep extends Step {
  /** Tells it from the others. */
  readonly kind: 'dress';
  /** The drawing. */
  readonly drawing: string;
  /** The photos of its surfaces. */
  readonly photos: readonly string[];
  /** How, and where to; each `surface` of its paint is the name of a surface's step. */
  readonly options: Omit<DressDrawingOptions, 'onProgress' | 'signal'>;
}

/** A drawing that is made smaller. */
export interface SlimStep extends Step {
  /** Tells it from the others. */
  readonly kind: 'slim';
  /** The drawing. */
  readonly drawing: string;
  /** How, and where to. */
  readonly options: Omit<SlimDrawingOptions, 'output' | 'report' | 'onProgress' | 'signal'> & {
    readonly output: string;
  };
}

/** Pages of parts. */
export interface SheetStep extends Step {
  /** Tells it from the others. */
  readonly kind: 'sheet';
  /** Their files, in order. */
  readonly parts: readonly string[];
  /** How, and where to. */
  readonly options: Omit<SheetPartsOptions, 'onProgress' | 'signal'>;
}

/** One thing to do. */
export type BuildStep = SurfaceStep | FillStep | ReliefStep | DressStep | SlimStep | SheetStep;

/**
 * Name the files that a step is known to write.
 *
 * @param step - Which.
 * @returns They, the first before its layers.
 */
export function filesOf(step: Exclude<BuildStep, SurfaceStep>): readonly string[] {
  return [step.options.output, ...(step.kind === 'relief' ? step.layers : [])];
}

/**
 * Tell whether a step makes a drawing of another.
 *
 * @param step - Which.
 * @returns Whether it does.
 */
export function isDrawn(step: BuildStep): step is DressStep | SlimStep {
  return step.kind === 'dress' || step.kind === 'slim';
}

/** What a job comes to. */
export interface BuildPlan {
  /** The job file. */
  readonly path: string;
  /** The folder that it lies in. */
  readonly folder: string;
  /** The folder that files are written into. */
  readonly output: string;
  /** What there is to do, each after what it needs. */
  readonly steps: readonly BuildStep[];
  /** What was set and counts for them. */
  readonly set: ReadonlySet<ToldSetting>;
  /** All files that the job reads or writes, asked for now or not. */
  readonly files: readonly string[];
}
