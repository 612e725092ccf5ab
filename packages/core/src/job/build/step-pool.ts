import { Worker } from 'node:worker_threads';
import { given } from '../given.js';
import { TextureError } from '../../errors/texture-error.js';
import { heldLimits } from '../../read/held-limits.js';
import type { OnTaskStep, Task, TaskOutcome } from './run-task.js';
import {
  doWork,
  type TaskFailure,
  type Work,
  type WorkDone,
  type WorkerReply,
} from './step-worker.js';
import type { View, ViewTask } from './view-task.js';

/** Does tasks, several at a time. */
export interface StepPool {
  /**
   * Do a task as soon as there is room.
   *
   * @param task - Which.
   * @param onProgress - Told of what it is busy with.
   * @returns What it did.
   */
  readonly run: (task: Task, onProgress: OnTaskStep) => Promise<TaskOutcome>;
  /**
   * Draw something to look at as soon as there is room.
   *
   * @param task - Which.
   * @returns What there is to see.
   */
  readonly draw: (task: ViewTask) => Promise<View>;
  /**
   * Do something in this thread as soon as there is room, as one of those that are at work.
   *
   * @param work - It.
   * @returns What it came to.
   */
  readonly take: <Result>(work: () => Promise<Result>) => Promise<Result>;
  /** The numbers of all threads that there were, by which files that they left are known. */
  readonly threads: readonly number[];
  /** Stop all threads, whatever they are at. */
  readonly close: () => Promise<void>;
}

/**
 * Open a pool.
 *
 * @param size - How many tasks are done at a time, 1 or more; one at a time is done in this thread.
 * @param signal - Where it is aborted, threads are stopped, and every task fails for its reason.
 * @returns What does them.
 */
export function openStepPool(size: number, signal?: AbortSignal): StepPool {
  const idle = new Set<Worker>();
  const all = new Set<Worker>();
  const threads: number[] = [];
  const waiting: (() => void)[] = [];
  let isClosed = false;
  let busy = 0;
  const hire = (): Worker => {
    const worker = new Worker(new URL('step-worker.js', import.meta.url), {
      workerData: heldLimits(),
    });
    all.add(worker);
    threads.push(worker.threadId);
    worker.on('exit', () => {
      all.delete(worker);
      idle.delete(worker);
    });
    return worker;
  };
  const ask = async (work: Work, onProgress: OnTaskStep): Promise<WorkDone> => {
    const [worker = hire()] = idle;
    idle.delete(worker);
    try {
      return await askWorker(worker, work, { onProgress, isExpected: () => isClosed });
    } finally {
      if (all.has(worker)) idle.add(worker);
    }
  };
  const stop = async (): Promise<void> => {
    await Promise.all([...all].map((worker) => worker.terminate()));
  };
  const abort = (): void => void stop();
  signal?.addEventListener('abort', abort, { once: true });
  const alone = { ...(signal && { signal }) };
  const take = async <Result>(work: () => Promise<Result>): Promise<Result> => {
    if (busy < size) busy++;
    else await new Promise<void>((resolve) => waiting.push(resolve));
    try {
      signal?.throwIfAborted();
      return await work();
    } catch (cause) {
      // A thread that was stopped knows no better than that it ended.
      signal?.throwIfAborted();
      throw cause;
    } finally {
      // A place is handed on as it is.
      const next = waiting.shift();
      if (next === undefined) busy--;
      else next();
    }
  };
  const perform = (work: Work, onProgress: OnTaskStep): Promise<WorkDone> =>
    take(() => (size === 1 ? doWork(work, { ...alone, onProgress }) : ask(work, onProgress)));
  return {
    threads,
    take,
    async run(task, onProgress) {
      const done = await perform({ kind: 'step', task }, onProgress);
      if (done.kind === 'step') return done.outcome;
      throw new Error('a thread did something else');
    },
    async draw(task) {
      const done = await perform({ kind: 'view', task }, () => undefined);
      if (done.kind === 'view') return done.view;
      throw new Error('a thread did something else');
    },
    async close() {
      signal?.removeEventListener('abort', abort);
      isClosed = true;
      await stop();
    },
  };
}

async function askWorker(
  worker: Worker,
  work: Work,
  {
    onProgress,
    isExpected,
  }: { readonly onProgress: OnTaskStep; readonly isExpected: () => boolean },
): Promise<WorkDone> {
  return new Promise((resolve, reject) => {
    const settle = (): void => {
      worker.off('message', hear).off('error', fail).off('exit', leave);
    };
    const hear = (reply: WorkerReply): void => {
      if (reply.kind === 'step') {
        onProgress(reply.step);
        return;
      }
      settle();
      if (reply.kind === 'done') resolve(reply.done);
      else reject(toError(reply.failure));
    };
    const fail = (error: Error): void => {
      settle();
      reject(error);
    };
    const leave = (): void => {
      settle();
      // Nobody waits for what was given up.
      if (!isExpected()) reject(new Error('a thread ended before its work was done'));
    };
    worker.on('message', hear).on('error', fail).on('exit', leave);
    worker.postMessage(work);
  });
}

function toError({ code, isRange, message, hint, limit, stack }: TaskFailure): Error {
  if (code !== null) return new TextureError(code, message, given({ hint, limit }));
  const error = isRange ? new RangeError(message) : new Error(message);
  if (stack !== undefined) error.stack = stack;
  return error;
}
