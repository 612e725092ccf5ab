import { nearNames } from '../../catalogue/near-names.js';
import { BadJob, type JobPath } from './bad-job.js';

/** What is looked for. */
export interface NamedWish {
  /** Where it is named. */
  readonly path: JobPath;
  /** What it is: `surface`. */
  readonly what: string;
}

/**
 * Look up what another entry names.
 *
 * @param among - What there is, by name.
 * @param name - As written.
 * @param wish - Where that stands, and what is looked for.
 * @returns What is named.
 * @throws BadJob that says what was meant, or what there is.
 */
export function findNamed<Value>(
  among: ReadonlyMap<string, Value>,
  name: string,
  wish: NamedWish,
): Value {
  const found = among.get(name);
  if (found !== undefined) return found;
  const { path, what } = wish;
  const near = nearNames(name, among.keys());
  const all = [...among.keys()].slice(0, 8).join(', ');
  const known = all === '' ? `the job has no ${what}s` : `there are: ${all}`;
  const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : known;
  throw new BadJob(path, `no ${what} is called ${JSON.stringify(name.slice(0, 80))}`, { hint });
}
