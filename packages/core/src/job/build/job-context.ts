import type { NamedScale } from '../../catalogue/find-scale.js';
import type { ToldSetting } from '../settings/settings.js';
import type { UsualTop, UsualValues } from '../settings/take-settings.js';
import type { BadJob } from './bad-job.js';
import type { TopValues } from './job-schema.js';
import type { JobData } from './read-job.js';

/** What all entries of a job are read with. */
export interface JobContext {
  /** What the file holds. */
  readonly data: JobData;
  /** What holds where it says nothing. */
  readonly usual: UsualValues;
  /** What stands at its top. */
  readonly top: Partial<TopValues>;
  /** The folder that the file lies in. */
  readonly folder: string;
  /** The folder that files of this scale are written into. */
  readonly output: string;
  /** The scale at hand. */
  readonly scale: NamedScale;
  /** Tells steps of this scale from others: empty where the job has one. */
  readonly mark: string;
  /** What was found wrong so far. */
  readonly faults: BadJob[];
  /** What of the usual was taken so far for the entry at hand. */
  readonly taken: Set<ToldSetting>;
}

/**
 * Take what the top of a job says, or what is usual where it says nothing, and note the latter.
 *
 * @param name - Of the value.
 * @param context - Of the job.
 * @returns It, or undefined where neither says.
 */
export function fromTop<Name extends keyof UsualTop>(
  name: Name,
  context: Pick<JobContext, 'top' | 'usual' | 'taken'>,
): Partial<UsualTop>[Name] {
  const { top, usual, taken } = context;
  if (top[name] !== undefined) return top[name];
  if (usual.top[name] !== undefined) taken.add(name);
  return usual.top[name];
}
