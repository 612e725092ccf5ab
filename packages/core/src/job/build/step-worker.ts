import { parentPort } from 'node:worker_threads';
import { TextureError, type TextureErrorCode } from '../../errors/texture-error.js';
import type { JobStep } from '../job-options.js';
import { runTask, type Task, type TaskOutcome } from './run-task.js';

/** What a worker says. */
export type WorkerReply =
  | { readonly kind: 'step'; readonly step: JobStep }
  | { readonly kind: 'done'; readonly outcome: TaskOutcome }
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
    stack: whole.stack,
  };
}

const port = parentPort;
if (port !== null) {
  const say = (reply: WorkerReply): void => {
    port.postMessage(reply);
  };
  port.on('message', (task: Task) => {
    const onProgress = (step: JobStep): void => {
      say({ kind: 'step', step });
    };
    runTask(task, { onProgress }).then(
      (outcome) => {
        say({ kind: 'done', outcome });
      },
      (error: unknown) => {
        say({ kind: 'failed', failure: toFailure(error) });
      },
    );
  });
}
