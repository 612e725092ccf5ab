import type { Warning } from '../../errors/warning.js';
import { hashFile } from '../../read/hash-file.js';
import type { KeepFolder } from '../../write/keep-folder.js';
import { removeFile } from '../../write/remove-file.js';
import { type BuildPlan, type BuildStep, filesOf, type SurfaceStep } from './build-plan.js';
import { type BuiltStep, reportStep } from './build-report.js';
import { openSurfaces, type Surfaces } from './open-surfaces.js';
import { inputsOf } from './run-task.js';
import type { StepKey } from './step-key.js';
import {
  doTask,
  type DoTaskOptions,
  named,
  type StepFailure,
  StepRefused,
  tell,
} from './do-task.js';
import { recall, remember, stateOfFiles, type StepRecord, whyBuild } from './step-record.js';

/** What steps are run with. */
export interface RunStepsOptions extends DoTaskOptions {
  /** Of each step. */
  readonly keys: ReadonlyMap<string, StepKey>;
  /** What was kept. */
  readonly keep: KeepFolder;
  /** Whether nothing is to be done. */
  readonly dryRun?: boolean;
  /** Where it is aborted, nothing more is begun. */
  readonly signal?: AbortSignal;
}

/** What became of steps. */
export interface RanSteps {
  /** Of parts and sheets, in their order. */
  readonly results: readonly BuiltStep[];
  /** What is remembered of those that are there, by the ids of their steps. */
  readonly records: ReadonlyMap<string, StepRecord>;
  /** What the user should know, once each. */
  readonly warnings: readonly Warning[];
  /** The surfaces, of which none is made twice, nor tried again where it failed. */
  readonly surfaces: Surfaces;
  /** What failed, in the order of what it kept from being built. */
  readonly failures: readonly BuildFailure[];
}

/** Why some of a job could not be built. */
export interface BuildFailure extends StepFailure {
  /** Parts and sheets that are not there for it, by name. */
  readonly lost: readonly string[];
}

type PrintStep = Exclude<BuildStep, SurfaceStep>;

interface Result {
  readonly built: BuiltStep;
  readonly record: StepRecord | null;
  readonly warnings: readonly Warning[];
  readonly failures: readonly StepFailure[];
}

/**
 * Do what has to be done of a plan: each step once all that it needs is there, several at a time. What
 * fails keeps nothing else from being done but what needs it.
 *
 * @param plan - What there is to do.
 * @param options - What it is done with.
 * @returns What became of it.
 * @throws Whatever else ends a step, once all that was begun has ended.
 */
export async function runSteps(plan: BuildPlan, options: RunStepsOptions): Promise<RanSteps> {
  const told = new Map<string, readonly Warning[]>();
  const surfaces = openSurfaces(plan, { ...options, told });
  const running = new Map<string, Promise<Result>>();
  for (const step of plan.steps) {
    if (step.kind === 'surface') continue;
    const first = step.needs.map((id) => running.get(id)).filter((one) => one !== undefined);
    running.set(step.id, runStep(step, first, { ...options, plan, surfaces }));
  }
  await Promise.allSettled(running.values());
  const results = await Promise.all(running.values());
  return {
    results: results.map(({ built }) => built),
    records: new Map([...running.keys()].flatMap((id, i) => recordOf(id, results[i]))),
    // In the order of the file, whichever was done first.
    warnings: [
      ...plan.steps.flatMap(({ id }) => told.get(id) ?? []),
      ...results.flatMap(({ warnings }) => warnings),
    ],
    surfaces,
    failures: listFailures(results),
  };
}

function recordOf(id: string, result: Result | undefined): readonly [string, StepRecord][] {
  return result?.record == null ? [] : [[id, result.record]];
}

// A surface that fails does so once, for all parts that need it.
function listFailures(results: readonly Result[]): readonly BuildFailure[] {
  const lost = new Map<StepFailure, Set<string>>();
  for (const { built, failures } of results) {
    for (const failure of failures) {
      lost.set(failure, (lost.get(failure) ?? new Set<string>()).add(built.name));
    }
  }
  return [...lost].map(([failure, names]) => ({ ...failure, lost: [...names] }));
}

interface Running extends RunStepsOptions {
  readonly plan: BuildPlan;
  readonly surfaces: Surfaces;
}

async function runStep(
  step: PrintStep,
  first: readonly Promise<Result>[],
  running: Running,
): Promise<Result> {
  const { plan, keep, dryRun = false } = running;
  const key = keyOf(step.id, running);
  const before = await Promise.all(first);
  const lost = before.filter(({ built }) => built.state === 'failed');
  if (lost.length > 0) {
    tell(step, 'failed', running);
    return failed(step, `${lost.map(({ built }) => built.name).join(', ')} missing`, [
      ...new Set(lost.flatMap(({ failures }) => failures)),
    ]);
  }
  const record = await recall(keep, plan, step);
  const why = (await whyOther(step, record, running)) ?? (await whyBuild(step, key, record));
  if (why === null && record !== null) {
    tell(step, 'kept', running);
    await Promise.all(step.needs.map(running.surfaces.use));
    return done(step, record, { state: 'kept', why: null });
  }
  if (dryRun) {
    return {
      built: reportStep(step, {
        state: 'planned',
        why,
        files: filesOf(step),
        report: null,
      }),
      record: null,
      warnings: [],
      failures: [],
    };
  }
  try {
    return await doStep(step, why, { ...running, key, record, before });
  } catch (cause) {
    if (!(cause instanceof StepRefused)) throw cause;
    tell(step, 'failed', running);
    return failed(step, cause.message, cause.failures);
  }
}

// Of a surface that is another now, what of it changed.
async function whyOther(
  { needs }: PrintStep,
  record: StepRecord | null,
  { plan, keys, keep }: Running,
): Promise<string | null> {
  for (const id of record === null ? [] : needs) {
    const now = keyOf(id, { keys });
    if (record?.needs[id] === now.key) continue;
    const surface = plan.steps.find((step) => step.id === id && step.kind === 'surface');
    const before = surface && (await recall(keep, plan, surface));
    const why = surface && before && (await whyBuild(surface, now, before));
    if (why) return why;
  }
  return null;
}

async function doStep(
  step: PrintStep,
  why: string | null,
  running: Running & {
    readonly key: StepKey;
    readonly record: StepRecord | null;
    readonly before: readonly Result[];
  },
): Promise<Result> {
  const { plan, keys, keep, surfaces, key, before } = running;
  const needed = step.kind === 'sheet' ? [] : step.needs;
  await makeAll(needed, surfaces);
  const outcome = await doTask(
    {
      step,
      folder: plan.folder,
      key: key.key,
      surfaces: Object.fromEntries(needed.map((id) => [id, keys.get(id)?.key ?? ''])),
      inputs: { ...inputsOf(step, key.inputs), ...Object.fromEntries(before.flatMap(sumsOf)) },
    },
    running,
  );
  const { files, report, pages = [] } = outcome.value;
  const record: StepRecord = {
    ...key,
    files: await stateOfFiles(files),
    report,
    pages,
    warnings: named(step, outcome.warnings),
  };
  await remember(keep, plan, step, record);
  await dropOld(running.record, record);
  tell(step, 'done', running);
  return done(step, record, { state: 'built', why });
}

// Of several that fail, each is told.
async function makeAll(ids: readonly string[], { make }: Surfaces): Promise<void> {
  const made = await Promise.allSettled(ids.map(make));
  const causes = made.flatMap((one) => (one.status === 'rejected' ? [one.reason as unknown] : []));
  const failures = causes.flatMap((cause) => {
    if (!(cause instanceof StepRefused)) throw cause;
    return cause.failures;
  });
  if (failures.length > 0) throw new StepRefused(failures);
}

// The files of parts are what a sheet is made of.
function sumsOf({ record }: Result): [string, string][] {
  return (record?.files ?? []).map(({ path, sha256 }) => [path, sha256]);
}

// Pages and pictures of before that are not written any more, unless somebody changed them since.
async function dropOld(old: StepRecord | null, now: StepRecord): Promise<void> {
  const written = new Set(now.files.map(({ path }) => path));
  for (const { path, sha256 } of old?.files ?? []) {
    if (!written.has(path) && (await hashFile(path)) === sha256) await removeFile(path);
  }
}

function keyOf(id: string, { keys }: Pick<RunStepsOptions, 'keys'>): StepKey {
  const key = keys.get(id);
  if (key === undefined) throw new Error(`no key for ${id}`);
  return key;
}

function done(step: PrintStep, record: StepRecord, what: Pick<BuiltStep, 'state' | 'why'>): Result {
  const { files, report, warnings } = record;
  const built = reportStep(step, { ...what, files: files.map(({ path }) => path), report });
  return { built, record, warnings, failures: [] };
}

function failed(step: PrintStep, why: string, failures: readonly StepFailure[]): Result {
  const built = reportStep(step, { state: 'failed', why, files: [], report: null });
  return { built, record: null, warnings: [], failures };
}
