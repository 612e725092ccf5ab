import { parentPort, workerData } from 'node:worker_threads';
import { TextureError, type TextureErrorCode } from '../../errors/texture-error.js';
import type { LimitName, LimitOptions } from '../../limits/limits.js';
import { withLimits } from '../../read/held-limits.js';
import type { JobOptions, JobStep } from '../job-options.js';
import { runTask, type Task, type TaskOutcome } from './run-task.js';
import { drawView } from './draw-view.js';
import type { View, ViewTask } from './view-task.js';

/** What a thread may be asked. */
export type Work =
  | { readonly kind: 'step'; readonly task: Task }
  | { readonly kind: 'view'; readonly task: ViewTask };

/** What comes of it. */
export type WorkDone =
  | { readonly kind: 'step'; readonly outcome: TaskOutcome }
  | { readonly kind: 'view'; readonly view: View };

/**
 * Do what a thread may be asked.
 *
 * @param work - What.
 * @param options - Who is told of what it is busy with, and what stops it.
 * @returns What comes of it.
 */
export async function doWork(work: Work, options: JobOptions): Promise<WorkDone> {
  return work.kind === 'view'
    ? { kind: 'view', view: await drawView(work.task, options) }
    : { kind: 'step', outcome: await runTask(work.task, options) };
}

/** What a worker says. */
export type WorkerReply =
  | { readonly kind: 'step'; readonly step: JobStep }
  | { readonly kind: 'done'; readonly done: WorkDone }
  | { readonly kind: 'failed'; readonly failure: TaskFailure };

/** An error on its way between threads, which would lose its class. */
export interface TaskFailure {
  /** Of a TextureError, or null. */
  readonly code: TextureErrorCode | null;
  /** Whether it was a RangeError. */
  readonly isRange: boolean;
  /** What it says. */
  readonly message: string;
  /** What would work, or undefined. */
  readonly hint: string | undefined;
  /** The limit that it is about, or undefined. */
  readonly limit: LimitName | undefined;
  /** Where it was thrown. */
  readonly stack: string | undefined;
}

// What is needed of it, whatever was thrown.
function toFailure(error: unknown): TaskFailure {
  const known = error instanceof TextureError ? error : null;
  const whole = error instanceof Error ? error : new Error(String(error));
  return {
    code: known?.code ?? null,
    isRange: error instanceof RangeError,
    message: whole.message,
    hint: known?.hint,
    limit: known?.limit,
    stack: whole.stack,
  };
}

const port = parentPort;
const limits = (workerData ?? {}) as LimitOptions;
if (port !== null) {
  const say = (reply: WorkerReply): void => {
    port.postMessage(reply);
  };
  port.on('message', (work: Work) => {
    const onProgress = (step: JobStep): void => {
      say({ kind: 'step', step });
    };
    withLimits(limits, () => doWork(work, { onProgress })).then(
      (done) => {
        say({ kind: 'done', done });
      },
      (error: unknown) => {
        say({ kind: 'failed', failure: toFailure(error) });
      },
    );
  });
}
