import type { BadJob } from './bad-job.js';
import type { TextureError } from '../../errors/texture-error.js';
import { jobSchema } from './job-schema.js';
import { readYaml } from './read-yaml.js';

/** A job file as read: it has the right form. */
export interface JobFile {
  /** As the user gave it. */
  readonly path: string;
  /** What it holds. */
  readonly data: JobData;
  /**
   * Put what is wrong with a place of it into words.
   *
   * @param faults - One or more.
   * @returns An error to throw: the first of them, by its line and column.
   */
  readonly explain: (faults: readonly BadJob[]) => TextureError;
}

type Entry = Readonly<Record<string, unknown>>;

/** What a job file of the right form holds: values are still as written. */
export interface JobData extends Entry {
  /** One scale, or several. */
  readonly scale: string | number | readonly (string | number)[];
  /** By name. */
  readonly surfaces?: Readonly<Record<string, Entry>>;
  /** By name. */
  readonly parts: Readonly<Record<string, Entry>>;
  /** By name. */
  readonly sheets?: Readonly<Record<string, Entry>>;
  /** Of all parts that say nothing of it. */
  readonly weather?: Entry;
  /** Likewise. */
  readonly printing?: Entry;
}

/**
 * Read a job file and hold it against its schema.
 *
 * @param path - Where it lies.
 * @returns What it holds.
 * @throws TextureError `bad-job`, with file, line and column, or why the file cannot be read.
 */
export async function readJob(path: string): Promise<JobFile> {
  const form = { what: 'a job', code: 'bad-job', schema: jobSchema } as const;
  const { data, explain } = await readYaml(path, form);
  return { path, data: data as JobData, explain };
}
