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
  isLeaving = true;
  const since = performance.now();
  const rest = (): number => patience - (performance.now() - since);
  await Promise.race([clean(), wait(patience)]);
  const sharp = await loadSharp();
  while (sharp.counters().process > 0 && rest() > 0) await wait(10);
  if (sharp.counters().process > 0) {
    process.emit('exit', exits[signal]);
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  }
  process.exit(exits[signal]);
}

/**
 * Go on with a file, unless the process is about to end: then never.
 */
export async function unlessLeaving(): Promise<void> {
  if (isLeaving) await new Promise(() => undefined);
}
