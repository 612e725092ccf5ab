import type { Warning } from '../../errors/warning.js';
import type { KeepFolder } from '../../write/keep-folder.js';
import type { BuildPlan, SurfaceStep } from './build-plan.js';
import { doTask, type DoTaskOptions, named, tell } from './do-task.js';
import { isWhole } from './keep-surface.js';
import { inputsOf } from './run-task.js';
import type { StepKey } from './step-key.js';
import { recall, remember, type StepRecord } from './step-record.js';

/** The surfaces of a job. */
export interface Surfaces {
  /** Have one made, once, when the first part asks for it and it is not kept. */
  readonly make: (id: string) => Promise<void>;
  /** Say that one is still of use, though no part asks for it, and what there is to know of it. */
  readonly use: (id: string) => Promise<void>;
}

/** What surfaces are made with. */
export interface OpenSurfacesOptions extends DoTaskOptions {
  /** Of each step. */
  readonly keys: ReadonlyMap<string, StepKey>;
  /** What was kept. */
  readonly keep: KeepFolder;
  /** What the user should know of those that were used, by the ids of their steps; added to. */
  readonly told: Map<string, readonly Warning[]>;
}

/**
 * Open the surfaces of a job, none of which is made yet.
 *
 * @param plan - What there is to do.
 * @param options - What they are made with.
 * @returns What makes them.
 */
export function openSurfaces(plan: BuildPlan, options: OpenSurfacesOptions): Surfaces {
  const { keys, keep, told, pool } = options;
  const byId = new Map(plan.steps.map((step) => [step.id, step]));
  const made = new Map<string, Promise<void>>();
  const kept = async (step: SurfaceStep, key: string): Promise<StepRecord | null> => {
    const record = await recall(keep, plan, step);
    return record?.key === key ? record : null;
  };
  const make = async (step: SurfaceStep, key: StepKey): Promise<void> => {
    const record = await kept(step, key.key);
    if (record !== null && (await pool.take(() => isKept(keep, `${key.key}.surface`)))) {
      told.set(step.id, record.warnings);
      return;
    }
    const inputs = inputsOf(step, key.inputs);
    const task = { step, folder: plan.folder, key: key.key, surfaces: {}, inputs };
    const outcome = await doTask(task, options);
    const warnings = named(step, outcome.warnings);
    told.set(step.id, warnings);
    await remember(keep, plan, step, {
      ...key,
      files: [],
      report: outcome.value.report,
      pages: [],
      warnings,
    });
    tell(step, 'done', options);
  };
  const find = (id: string): readonly [SurfaceStep, StepKey] | null => {
    const [step, key] = [byId.get(id), keys.get(id)];
    return step?.kind === 'surface' && key !== undefined ? [step, key] : null;
  };
  return {
    make(id) {
      const found = find(id);
      if (found === null) return Promise.resolve();
      const making = made.get(id) ?? make(...found);
      made.set(id, making);
      return making;
    },
    async use(id) {
      const found = find(id);
      const record = found && (await kept(found[0], found[1].key));
      if (record === null) return;
      told.set(id, record.warnings);
      await keep.use(`${record.key}.surface`);
    },
  };
}

// Each is read wholly, many megabytes: as few at a time as there are at work.
// A disk that was full, or a hand in the wrong folder, costs time and nothing else.
async function isKept(keep: KeepFolder, name: string): Promise<boolean> {
  const bytes = await keep.read(name);
  return bytes !== null && isWhole(bytes) && keep.use(name);
}
