import type { NamedScale } from '../../catalogue/find-scale.js';
import type { BadJob } from './bad-job.js';
import type { UsualValues } from '../settings/take-settings.js';
import type { TopValues } from './job-schema.js';
import type { JobData } from './read-job.js';

/** What all entries of a job are read with. */
export interface JobContext {
  /** What the file holds. */
  readonly data: JobData;
  /** What holds where it says nothing. */
  readonly usual: UsualValues;
  /** What stands at its top, and beside that what is usual. */
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
}
