import { setTimeout as wait } from 'node:timers/promises';
import { type FileState, stateOf } from '../../read/hash-file.js';
import type { BuildPlan } from './build-plan.js';
import { usualLimits } from '../settings/take-settings.js';
import type { LimitOptions } from '../../limits/limits.js';
import { withLimits } from '../../read/held-limits.js';
import { planBuild, type PlanBuildOptions } from './plan-build.js';
import { readJob } from './read-job.js';

/** The state of all files that a job reads. */
export type JobState = ReadonlyMap<string, FileState | null>;

/**
 * Look at all files that a job reads; where that cannot be told, at the job file and those that it read before.
 *
 * @param path - Where the job file lies.
 * @param options - How much of it is meant.
 * @param before - How they were when they could be told last.
 * @returns Their state.
 */
export async function lookAtJob(
  path: string,
  options: PlanBuildOptions & LimitOptions = {},
  before: JobState = new Map(),
): Promise<JobState> {
  const settings = options.settings?.files ?? [];
  const plan = async (): Promise<BuildPlan> => planBuild(await readJob(path), options);
  const inputs = await withLimits(usualLimits(options), plan).then(
    ({ steps }) => steps.flatMap((step) => step.inputs),
    () => [],
  );
  return look([path, ...settings, ...inputs, ...(inputs.length === 0 ? before.keys() : [])]);
}

async function look(paths: Iterable<string>): Promise<JobState> {
  const unlike = [...new Set(paths)];
  return new Map(
    await Promise.all(unlike.map(async (path) => [path, await stateOf(path)] as const)),
  );
}

// Looking at a few dozen files costs next to nothing, works on every disk, and misses no change that
// came while a build was busy.
const pauseMs = 300;

/**
 * Wait until a file of a job is another than it was, and nothing more changes for a moment.
 *
 * @param before - How they were.
 * @param signal - Ends the wait, by throwing its reason.
 * @returns Once that is so.
 */
export async function waitForChange(before: JobState, signal?: AbortSignal): Promise<void> {
  let last = before;
  for (let changed = false; ;) {
    await wait(pauseMs, undefined, signal && { signal });
    const now = await look(before.keys());
    if (changed && isSame(now, last)) return;
    changed = !isSame(now, before);
    last = now;
  }
}

function isSame(a: JobState, b: JobState): boolean {
  return [...a].every(([path, state]) => {
    const other = b.get(path) ?? null;
    return state?.size === other?.size && state?.modified === other?.modified;
  });
}
