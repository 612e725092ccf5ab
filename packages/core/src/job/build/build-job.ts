import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import type { LimitOptions } from '../../limits/limits.js';
import { withLimits } from '../../read/held-limits.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Failing, Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { type KeepFolder, openKeepFolder } from '../../write/keep-folder.js';
import { noSettings } from '../settings/settings.js';
import { toUsed, type UsedSetting } from '../settings/settings-used.js';
import { removeStale } from '../../write/stale-files.js';
import { type BuildPlan, isDrawn } from './build-plan.js';
import type { BuildEvent, BuiltJob } from './build-report.js';
import { heedSignals } from './heed-signals.js';
import { planBuild, type PlanBuildOptions } from './plan-build.js';
import { usualLimits } from '../settings/take-settings.js';
import { readJob } from './read-job.js';
import { type BuildFailure, type RanSteps, runSteps, type RunStepsOptions } from './run-steps.js';
import { keySteps } from './step-key.js';
import { openStepPool } from './step-pool.js';

/** What {@link buildJob} may be told. */
export interface BuildJobOptions extends PlanBuildOptions, LimitOptions {
  /** Whether to say what would be done, and do nothing. */
  readonly dryRun?: boolean;
  /** How many steps are done at a time, 1 to 64; one for each processor, up to 4, unless told. */
  readonly jobs?: number;
  /** Bytes that may be kept in the hidden folder for later builds; 2 GB unless told. */
  readonly keepBytes?: number;
  /** A page to write that shows what came of it, `.html`; not with `dryRun`. */
  readonly report?: string;
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
  return withLimits(usualLimits(options), () => buildWithin(path, options));
}

async function buildWithin(
  path: string,
  options: BuildJobOptions,
): Promise<Outcome<BuiltJob, BuildRefusal>> {
  const { signal, report } = options;
  const threads = checkOptions(options);
  signal?.throwIfAborted();
  const job = await readJob(path);
  const plan = await planBuild(job, options);
  if (report !== undefined) await (await loadReport()).checkReport(plan, report);
  const keys = await keySteps(plan);
  const keep = await openKeepFolder(dirname(path));
  signal?.throwIfAborted();
  const pool = openStepPool(threads, signal);
  const folders = foldersOf(plan, keep, report);
  const remove = (): void => {
    for (const one of folders) removeStale(one, pool.threads);
  };
  const unheed = heedSignals(() => pool.close(), remove);
  try {
    const ran = await runJob(plan, { ...options, keys, keep, pool });
    const settings = toUsed([...plan.set], options.settings ?? noSettings);
    return toOutcome(plan, ran, { settings, report: report ?? null });
  } finally {
    unheed();
    await pool.close();
    if (signal?.aborted === true) remove();
  }
}

// For those who ask for one.
function loadReport(): Promise<typeof import('./report-build.js')> {
  return import('./report-build.js');
}

async function runJob(
  plan: BuildPlan,
  options: BuildJobOptions & RunStepsOptions,
): Promise<RanSteps> {
  const { keep, report, dryRun = false, keepBytes = usualKeep } = options;
  if (!dryRun) for (const one of foldersOf(plan, keep, report)) removeStale(one, 'of the dead');
  const ran = await runSteps(plan, options);
  const isSome = options.only !== undefined;
  if (report !== undefined)
    await (await loadReport()).reportBuild(plan, ran, { ...options, report, isSome });
  if (!dryRun) await keep.prune(keepBytes);
  return ran;
}

function checkOptions({ jobs, keepBytes, report, dryRun }: BuildJobOptions): number {
  if (report !== undefined && dryRun === true)
    throw outOfRange('no report of a dry run', 'report', report);
  if (keepBytes !== undefined && !(keepBytes >= 0)) {
    throw outOfRange('0 bytes or more', 'keepBytes', keepBytes);
  }
  if (jobs === undefined) return Math.min(mostThreads, availableParallelism());
  if (Number.isInteger(jobs) && jobs >= 1 && jobs <= 64) return jobs;
  throw outOfRange('a whole number from 1 to 64', 'jobs', jobs);
}

function foldersOf(
  { steps }: BuildPlan,
  keep: KeepFolder,
  report: string | undefined,
): readonly string[] {
  const outputs = steps.flatMap((step) => {
    if (step.kind === 'surface') return [];
    const link = isDrawn(step) ? step.options.link : undefined;
    return [dirname(step.options.output), ...(link === undefined ? [] : [link])];
  });
  if (report !== undefined) outputs.push(dirname(report));
  return [keep.path, ...new Set(outputs)];
}

function toOutcome(
  { path: job, output }: BuildPlan,
  { results: steps, warnings, failures }: RanSteps,
  {
    settings,
    report,
  }: { readonly settings: readonly UsedSetting[]; readonly report: string | null },
): Outcome<BuiltJob, BuildRefusal> {
  const [first, ...others] = failures;
  if (first === undefined) {
    const set = settings.length > 0 && { settings };
    return { ok: true, value: { job, output, steps, report, ...set }, warnings };
  }
  const good = steps.filter(({ state }) => state === 'built' || state === 'kept').length;
  const there = good === 0 ? '' : `; ${good === 1 ? 'one other is' : `${good} others are`} there`;
  const rest = report === null ? there : `${there}; report: ${showPath(report)}`;
  return {
    ok: false,
    code: 'not-built',
    ...inWords(first, rest),
    ...(others.length > 0 && { others: others.map((failure) => inWords(failure, '')) }),
  };
}

const mostNames = 12;

function inWords({ message, hint, limit, lost }: BuildFailure, rest: string): Failing {
  const named = lost.slice(0, mostNames).map(showPath).join(', ');
  const more = lost.length > mostNames ? ` and ${lost.length - mostNames} more` : '';
  return {
    message: `${message} (not built: ${named}${more}${rest})`,
    ...(hint !== undefined && { hint }),
    ...(limit !== undefined && { limit }),
  };
}
