import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Failing, Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { type KeepFolder, openKeepFolder } from '../../write/keep-folder.js';
import { noSettings } from '../settings/settings.js';
import { settingsUsed, type UsedSetting } from '../settings/settings-used.js';
import { removeStale } from '../../write/stale-files.js';
import type { BuildPlan } from './build-plan.js';
import type { BuildEvent, BuiltJob } from './build-report.js';
import { heedSignals } from './heed-signals.js';
import { planBuild, type PlanBuildOptions } from './plan-build.js';
import { readJob } from './read-job.js';
import { type BuildFailure, type RanSteps, runSteps } from './run-steps.js';
import { keySteps } from './step-key.js';
import { openStepPool } from './step-pool.js';

/** What {@link buildJob} may be told. */
export interface BuildJobOptions extends PlanBuildOptions {
  /** Whether to say what would be done, and do nothing. */
  readonly dryRun?: boolean;
  /** How many steps are done at a time, 1 to 64; one for each processor, up to 4, unless told. */
  readonly jobs?: number;
  /** Bytes that may be kept in the hidden folder for later builds; 2 GB unless told. */
  readonly keepBytes?: number;
  /** Told of every step. */
  readonly onBuild?: (event: BuildEvent) => void;
  /** Where it is aborted, the build stops, leaves nothing half-written, and throws the signal's reason. */
  readonly signal?: AbortSignal;
}

/** Why a job could not be built. */
export type BuildRefusal = 'not-built';

const usualKeep = 2e9;
const mostThreads = 4;

/**
 * Build all of a job: parts from surfaces, sheets from parts, only what changed since it was built last.
 *
 * @param path - Where the job file lies.
 * @param options - How much of it, and how.
 * @returns What was done, or why something of it was not: the first cause, and in `others` each of the rest.
 * @throws RangeError when an option makes no sense.
 * @throws TextureError when a file does not allow it; `bad-job` with file, line and column.
 */
export async function buildJob(
  path: string,
  options: BuildJobOptions = {},
): Promise<Outcome<BuiltJob, BuildRefusal>> {
  const { signal } = options;
  const threads = checkOptions(options);
  signal?.throwIfAborted();
  const job = await readJob(path);
  const plan = await planBuild(job, options);
  const keys = await keySteps(plan);
  const folder = dirname(path);
  const keep = await openKeepFolder(folder);
  signal?.throwIfAborted();
  const pool = openStepPool(threads, signal);
  const folders = foldersOf(plan, keep);
  const remove = (): void => {
    for (const one of folders) removeStale(one, pool.threads);
  };
  const unheed = heedSignals(() => pool.close(), remove);
  try {
    if (options.dryRun !== true) for (const one of folders) removeStale(one, 'of the dead');
    const ran = await runSteps(plan, { ...options, keys, keep, pool });
    if (options.dryRun !== true) await keep.prune(options.keepBytes ?? usualKeep);
    return report(plan, ran, settingsUsed(job.data, options.settings ?? noSettings));
  } finally {
    unheed();
    await pool.close();
    if (signal?.aborted === true) remove();
  }
}

function checkOptions({ jobs, keepBytes }: BuildJobOptions): number {
  if (keepBytes !== undefined && !(keepBytes >= 0)) {
    throw outOfRange('0 bytes or more', 'keepBytes', keepBytes);
  }
  if (jobs === undefined) return Math.min(mostThreads, availableParallelism());
  if (Number.isInteger(jobs) && jobs >= 1 && jobs <= 64) return jobs;
  throw outOfRange('a whole number from 1 to 64', 'jobs', jobs);
}

function foldersOf({ steps }: BuildPlan, keep: KeepFolder): readonly string[] {
  const outputs = steps.flatMap((step) => {
    if (step.kind === 'surface') return [];
    const link = step.kind === 'dress' ? step.options.link : undefined;
    return [dirname(step.options.output), ...(link === undefined ? [] : [link])];
  });
  return [keep.path, ...new Set(outputs)];
}

function report(
  plan: BuildPlan,
  { results, warnings, failures }: RanSteps,
  settings: readonly UsedSetting[],
): Outcome<BuiltJob, BuildRefusal> {
  const [first, ...others] = failures;
  if (first === undefined) {
    const value = { job: plan.path, output: plan.output, steps: results };
    const set = settings.length > 0 && { settings };
    return { ok: true, value: { ...value, ...set }, warnings };
  }
  const good = results.filter(({ state }) => state === 'built' || state === 'kept').length;
  const rest = good === 0 ? '' : `; ${good === 1 ? 'one other is' : `${good} others are`} there`;
  return {
    ok: false,
    code: 'not-built',
    ...inWords(first, rest),
    ...(others.length > 0 && { others: others.map((failure) => inWords(failure, '')) }),
  };
}

const mostNames = 12;

function inWords({ message, hint, lost }: BuildFailure, rest: string): Failing {
  const named = lost.slice(0, mostNames).map(showPath).join(', ');
  const more = lost.length > mostNames ? ` and ${lost.length - mostNames} more` : '';
  return {
    message: `${message} (not built: ${named}${more}${rest})`,
    ...(hint !== undefined && { hint }),
  };
}
