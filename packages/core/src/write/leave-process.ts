import { setTimeout as wait } from 'node:timers/promises';
import { loadSharp } from './load-sharp.js';

// A shell's own numbers: 128 and the signal's.
const exits = { SIGHUP: 129, SIGINT: 130, SIGTERM: 143 } as const;

/** What asks a process to end. */
export type Signal = keyof typeof exits;

/** All of them. */
export const signals: readonly Signal[] = ['SIGHUP', 'SIGINT', 'SIGTERM'];

// Nobody minds that long a wait, and most of what is being drawn is drawn by then.
const patience = 600;

let isLeaving = false;

/**
 * End the process as a signal asks, within a second. What the renderer is at cannot be stopped, and an end that
 * is due would wait for it, up to minutes: where that takes long, the signal itself ends the process, which to
 * a shell is the same.
 *
 * @param signal - Which.
 * @param clean - Removes what would be left behind, beside what listens to the process's end.
 */
export async function leaveProcess(
  signal: Signal,
  clean: () => Promise<void> = () => Promise.resolve(),
): Promise<void> {
  if (isLeaving) return;
  isLeaving = true;
  const leaveNow = (): void => {
    process.emit('exit', exits[signal]);
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  };
  // Who asks again is not kept waiting.
  for (const one of signals) process.removeAllListeners(one).on(one, leaveNow);
  const since = performance.now();
  const rest = (): number => patience - (performance.now() - since);
  let isDrawing = (): boolean => false;
  try {
    await Promise.race([clean(), wait(patience)]);
    const sharp = await loadSharp();
    isDrawing = () => sharp.counters().process > 0;
    while (isDrawing() && rest() > 0) await wait(10);
  } finally {
    if (isDrawing()) leaveNow();
    process.exit(exits[signal]);
  }
}

/**
 * Go on with a file, unless the process is about to end: then never.
 */
export async function unlessLeaving(): Promise<void> {
  if (isLeaving) await new Promise(() => undefined);
}
