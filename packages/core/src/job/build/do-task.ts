import type { LimitName } from '../../limits/limits.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Warning } from '../../errors/warning.js';
import type { BuildStep } from './build-plan.js';
import type { BuildEvent } from './build-report.js';
import type { Task, TaskOutcome } from './run-task.js';
import type { StepPool } from './step-pool.js';

/** Why a step could not be done. */
export interface StepFailure {
  /** One line, the step named. */
  readonly message: string;
  /** What would work, or undefined. */
  readonly hint: string | undefined;
  /** The limit that a file is over, or undefined. */
  readonly limit: LimitName | undefined;
}

/** What a task is done with. */
export interface DoTaskOptions {
  /** What does it. */
  readonly pool: StepPool;
  /** Told of every step. */
  readonly onBuild?: (event: BuildEvent) => void;
}

/** Pictures or files do not allow a step. */
export class StepRefused extends Error {
  /** One line for each cause, the step named. */
  readonly failures: readonly StepFailure[];

  /**
   * Make one.
   *
   * @param failures - Why, one or more, the steps named.
   */
  constructor(failures: readonly StepFailure[]) {
    super(failures.map(({ message }) => message).join('; '));
    this.name = 'StepRefused';
    this.failures = failures;
  }
}

/**
 * Have a task done.
 *
 * @param task - Which.
 * @param options - What does it.
 * @returns What it did.
 * @throws StepRefused where a picture or a file does not allow it.
 */
export async function doTask(
  task: Task,
  options: DoTaskOptions,
): Promise<Extract<TaskOutcome, { readonly ok: true }>> {
  const { step } = task;
  const busy = (what: string): void => {
    tell(step, what, options);
  };
  const outcome = await options.pool.run(task, busy).catch((cause: unknown) => {
    throw refused(step, cause);
  });
  if (outcome.ok) return outcome;
  throw refusedFor(step, outcome.message, outcome);
}

/**
 * Tell what a picture, a file or an option does not allow from a fault of ours, which says so where it is caught.
 *
 * @param cause - Whatever was thrown.
 * @returns Whether its message is for the user.
 */
export function isForUser(cause: unknown): cause is Error {
  if (cause instanceof TextureError || cause instanceof StepRefused) return true;
  return cause instanceof RangeError && cause.message.startsWith('expected ');
}

function refused(step: BuildStep, cause: unknown): unknown {
  if (!isForUser(cause)) return cause;
  return refusedFor(step, cause.message, cause instanceof TextureError ? cause : {});
}

function refusedFor(
  step: BuildStep,
  message: string,
  { hint, limit }: { readonly hint?: string | undefined; readonly limit?: LimitName | undefined },
): StepRefused {
  return new StepRefused([
    { message: `${whatIs(step)}: ${asKeys(message)}`, hint: hint && asKeys(hint), limit },
  ]);
}

// Jobs speak of the command's options: in a file they are keys.
function asKeys(text: string): string {
  return text.replace(
    /(^|[ (])--(?!most-)([a-z]+(?:-[a-z]+)*)/g,
    (_, before: string, flag: string) => {
      const key = flag.replace(/-([a-z])/g, (_dash, letter: string) => letter.toUpperCase());
      return `${before}${key}`;
    },
  );
}

const kindNames = {
  surface: 'surface',
  fill: 'part',
  relief: 'part',
  dress: 'part',
  slim: 'part',
  sheet: 'sheet',
};

/**
 * Say with each warning what it is of: among twenty parts, one has to know.
 *
 * @param step - Which.
 * @param warnings - Of it.
 * @returns The same, the step named.
 */
export function named(step: BuildStep, warnings: readonly Warning[]): readonly Warning[] {
  return warnings.map(({ code, message }) => ({
    code,
    message: `${whatIs(step)}: ${asKeys(message)}`,
  }));
}

function whatIs({ kind, name }: BuildStep): string {
  return `${kindNames[kind]} ${showPath(name)}`;
}

/**
 * Tell of a step.
 *
 * @param step - Which.
 * @param what - What it is busy with, or how it ended.
 * @param options - Who is told.
 */
export function tell(step: BuildStep, what: string, options: Pick<DoTaskOptions, 'onBuild'>): void {
  const { name, kind, scale } = step;
  options.onBuild?.({ name, kind, scale: scale.name ?? `1:${scale.ratio}`, step: what });
}
