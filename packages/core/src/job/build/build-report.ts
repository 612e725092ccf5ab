import { reportScale, type ScaleReport } from '../measure/report-scale.js';
import type { UsedSetting } from '../settings/settings-used.js';
import type { BuildStep } from './build-plan.js';
import type { StepReport } from './step-record.js';

/** What became of a part or of sheets. */
export interface BuiltStep extends StepReport {
  /** As the job file calls it. */
  readonly name: string;
  /** What it is. */
  readonly kind: 'fill' | 'relief' | 'dress' | 'slim' | 'sheet';
  /** Of the model. */
  readonly scale: ScaleReport;
  /** Whether it was built now, was there already, would be built, or could not be. */
  readonly state: 'built' | 'kept' | 'planned' | 'failed';
  /** Why it was or would be built, or what kept it from being; null where it was there already. */
  readonly why: string | null;
  /** Its files. */
  readonly files: readonly string[];
}

/** What became of a job. */
export interface BuiltJob {
  /** The job file. */
  readonly job: string;
  /** The folder that files are written into. */
  readonly output: string;
  /** What was set for all jobs and counted here, where anything was. */
  readonly settings?: readonly UsedSetting[];
  /** Parts and sheets, in the order of the file. */
  readonly steps: readonly BuiltStep[];
  /** The page that shows them, or null where none was asked for. */
  readonly report: string | null;
}

/** What a build tells of as it goes. */
export interface BuildEvent {
  /** As the job file calls the surface, part or sheets; of a report, its file. */
  readonly name: string;
  /** What that is. */
  readonly kind: BuildStep['kind'] | 'report';
  /** Of the model: `N-UK`, or 1:148; null of a report. */
  readonly scale: string | null;
  /** What it is busy with; done, kept, or failed in the end. */
  readonly step: string;
}

/**
 * Put what became of a step into its one form.
 *
 * @param step - Which.
 * @param result - What became of it.
 * @returns As it is told.
 */
export function reportStep(
  step: Exclude<BuildStep, { readonly kind: 'surface' }>,
  result: Pick<BuiltStep, 'state' | 'why' | 'files'> & { readonly report: StepReport | null },
): BuiltStep {
  const { report, ...others } = result;
  const { name, kind, scale } = step;
  const none = { widthMm: null, heightMm: null, pages: null, nextWall: null };
  return { name, kind, scale: reportScale(scale), ...others, ...(report ?? none) };
}
