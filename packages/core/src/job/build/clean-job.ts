import { dirname } from 'node:path';
import { clearKeepFolder } from '../../write/keep-folder.js';
import { readJob } from './read-job.js';

/** What was thrown away. */
export interface CleanedJob {
  /** The job file. */
  readonly job: string;
  /** Bytes that were freed. */
  readonly freedBytes: number;
}

/**
 * Throw away what was kept beside a job to build it more quickly; what was built stays.
 *
 * @param path - Where the job file lies.
 * @returns How much that was.
 * @throws TextureError where that is no job file.
 */
export async function cleanJob(path: string): Promise<CleanedJob> {
  await readJob(path);
  return { job: path, freedBytes: await clearKeepFolder(dirname(path)) };
}
