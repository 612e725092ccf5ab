import type { LimitOptions } from '../limits/limits.js';

/** What a job is busy with. */
export type JobStep =
  | 'reading'
  | 'measuring'
  | 'scaling'
  | 'inspecting'
  | 'mending'
  | 'extending'
  | 'packing'
  | 'dressing'
  | 'weathering'
  | 'slimming'
  | 'writing';

/** What every job that works on a picture may be given: whom to tell, and limits of what it reads. */
export interface JobOptions extends LimitOptions {
  /** Told of every step, before it begins. */
  readonly onProgress?: (step: JobStep) => void;
  /** Where it is aborted, the job stops at its next step and throws the signal's reason. */
  readonly signal?: AbortSignal;
}

/**
 * Begin a step: tell of it, unless the job was aborted.
 *
 * @param step - What begins.
 * @param options - The job's.
 * @throws The signal's reason, once it is aborted.
 */
export function beginStep(step: JobStep, options: JobOptions): void {
  options.signal?.throwIfAborted();
  options.onProgress?.(step);
}
