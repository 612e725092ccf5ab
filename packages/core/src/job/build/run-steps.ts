import type { Warning } from '../../errors/warning.js';
import { dirname } from 'node:path';
import { type KeepFolder, makeFolders } from '../../write/keep-folder.js';
import type { BuildPlan, BuildStep, SurfaceStep } from './build-plan.js';
import { type BuiltStep, reportStep } from './build-report.js';
import { isWhole } from './keep-surface.js';
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
}

/** What became of steps. */
export interface RanSteps {
  /** Of parts and sheets, in their order. */
  readonly results: readonly BuiltStep[];
  /** What the user should know, once each. */
  readonly warnings: readonly Warning[];
  /** Why the first that failed did, or null. */
  readonly failure: StepFailure | null;
}

type PrintStep = Exclude<BuildStep, SurfaceStep>;

interface Result {
  readonly built: BuiltStep;
  readonly warnings: readonly Warning[];
  readonly failure: StepFailure | null;
}

/**
 * Do what has to be done of a plan: each step once all that it needs is there, several at a time. What
 * fails keeps nothing else from being done but what needs it.
 *
 * @param plan - What there is to do.
 * @param options - What it is done with.
 * @returns What became of it.
 */
export async function runSteps(plan: BuildPlan, options: RunStepsOptions): Promise<RanSteps> {
  const told: Warning[] = [];
  const surfaces = surfacesOnDemand(plan, { ...options, told });
  const running = new Map<string, Promise<Result>>();
  for (const step of plan.steps) {
    if (step.kind === 'surface') continue;
    const first = step.needs.map((id) => running.get(id)).filter((one) => one !== undefined);
    running.set(step.id, runStep(step, first, { ...options, plan, surfaces }));
  }
  const results = await Promise.all(running.values());
  const failures = results.flatMap(({ failure }) => failure ?? []);
  return {
    results: results.map(({ built }) => built),
    warnings: [...told, ...results.flatMap(({ warnings }) => warnings)],
    failure: failures[0] ?? null,
  };
}

interface Running extends RunStepsOptions {
  readonly plan: BuildPlan;
  readonly surfaces: (id: string) => Promise<void>;
}

async function runStep(
  step: PrintStep,
  first: readonly Promise<Result>[],
  running: Running,
): Promise<Result> {
  const { plan, keep, dryRun = false } = running;
  const key = keyOf(step.id, running);
  const before = await Promise.all(first);
  const lost = before.find(({ built }) => built.state === 'failed');
  if (lost !== undefined)
    return failed(step, { message: `${lost.built.name} is missing`, hint: undefined }, false);
  const record = await recall(keep, plan, step);
  const why = before.some(({ built }) => built.state === 'planned')
    ? 'what lies on it changes'
    : ((await whyOther(step, record, running)) ?? (await whyBuild(step, key, record)));
  if (why === null && record !== null) {
    tell(step, 'kept', running);
    return done(step, record, { state: 'kept', why: null });
  }
  if (dryRun) {
    return {
      built: reportStep(step, {
        state: 'planned',
        why,
        files: [step.options.output],
        report: null,
      }),
      warnings: [],
      failure: null,
    };
  }
  try {
    return await doStep(step, why, { ...running, key });
  } catch (cause) {
    if (!(cause instanceof StepRefused)) throw cause;
    tell(step, 'failed', running);
    return failed(step, cause.failure);
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
    const surface = plan.steps.find((step) => step.id === id);
    const before = surface && (await recall(keep, plan, surface));
    const why = surface && before && (await whyBuild(surface, now, before));
    if (why) return why;
  }
  return null;
}

async function doStep(
  step: PrintStep,
  why: string | null,
  running: Running & { readonly key: StepKey },
): Promise<Result> {
  const { plan, keys, keep, surfaces, key } = running;
  const needed = step.kind === 'sheet' ? [] : step.needs;
  await Promise.all(needed.map(surfaces));
  await makeFolders(dirname(step.options.output));
  const outcome = await doTask(
    {
      step,
      folder: plan.folder,
      key: key.key,
      surfaces: Object.fromEntries(needed.map((id) => [id, keys.get(id)?.key ?? ''])),
      inputs: inputsOf(step, key),
    },
    running,
  );
  const { files, report } = outcome.value;
  const record: StepRecord = {
    ...key,
    files: await stateOfFiles(files),
    report,
    warnings: named(step, outcome.warnings),
  };
  await remember(keep, plan, step, record);
  tell(step, 'done', running);
  return done(step, record, { state: 'built', why });
}

// What a worker holds its files against, by their paths from here.
function inputsOf(step: BuildStep, { inputs }: StepKey): Readonly<Record<string, string | null>> {
  const sums = Object.values(inputs);
  return Object.fromEntries(step.inputs.map((path, i) => [path, sums[i] ?? null]));
}

// Each is made once, when the first part asks for it and it is not kept.
function surfacesOnDemand(
  plan: BuildPlan,
  options: RunStepsOptions & { readonly told: Warning[] },
): (id: string) => Promise<void> {
  const { keep, told } = options;
  const byId = new Map(plan.steps.map((step) => [step.id, step]));
  const made = new Map<string, Promise<void>>();
  const make = async (step: SurfaceStep): Promise<void> => {
    const key = keyOf(step.id, options);
    const record = await recall(keep, plan, step);
    if (record?.key === key.key && (await isKept(keep, `${key.key}.surface`))) {
      told.push(...record.warnings);
      return;
    }
    const task = {
      step,
      folder: plan.folder,
      key: key.key,
      surfaces: {},
      inputs: inputsOf(step, key),
    };
    const outcome = await doTask(task, options);
    const warnings = named(step, outcome.warnings);
    told.push(...warnings);
    await remember(keep, plan, step, { ...key, files: [], report: outcome.value.report, warnings });
    tell(step, 'done', options);
  };
  return (id) => {
    const step = byId.get(id);
    if (step?.kind !== 'surface') return Promise.resolve();
    const making = made.get(id) ?? make(step);
    made.set(id, making);
    return making;
  };
}

// A disk that was full, or a hand in the wrong folder, costs time and nothing else.
async function isKept(keep: KeepFolder, name: string): Promise<boolean> {
  const bytes = await keep.read(name);
  return bytes !== null && isWhole(bytes) && keep.use(name);
}

function keyOf(id: string, { keys }: Pick<RunStepsOptions, 'keys'>): StepKey {
  const key = keys.get(id);
  if (key === undefined) throw new Error(`no key for ${id}`);
  return key;
}

function done(
  step: PrintStep,
  { files, report, warnings }: StepRecord,
  what: Pick<BuiltStep, 'state' | 'why'>,
): Result {
  const built = reportStep(step, { ...what, files: files.map(({ path }) => path), report });
  return { built, warnings, failure: null };
}

function failed(step: PrintStep, failure: StepFailure, isCause = true): Result {
  const { message: why } = failure;
  const built = reportStep(step, { state: 'failed', why, files: [], report: null });
  return { built, warnings: [], failure: isCause ? failure : null };
}
