import { dirname } from 'node:path';
import { readBytes } from '../../read/read-bytes.js';
import { clearKeepFolder } from '../../write/keep-folder.js';

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
 * @throws TextureError where there is no such file.
 */
export async function cleanJob(path: string): Promise<CleanedJob> {
  await readBytes(path, 'yaml');
  return { job: path, freedBytes: await clearKeepFolder(dirname(path)) };
}
