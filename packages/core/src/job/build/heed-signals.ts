import { leaveProcess, signals } from '../../write/leave-process.js';

/**
 * End the process on a signal, once whatever runs in threads of its own was stopped: they hear of none.
 *
 * @param stop - Stops it.
 * @param remove - Removes what it left, stopped or not.
 * @returns What takes this back.
 */
export function heedSignals(stop: () => Promise<void>, remove: () => void): () => void {
  const listeners = signals.map((signal) => {
    const leave = (): void => {
      process.on('exit', remove);
      void leaveProcess(signal, stop);
    };
    process.once(signal, leave);
    return () => process.off(signal, leave);
  });
  return () => {
    for (const take of listeners) take();
  };
}
