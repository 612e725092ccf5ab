// A shell's own numbers: 128 and the signal's.
const exits = { SIGHUP: 129, SIGINT: 130, SIGTERM: 143 } as const;
type Signal = keyof typeof exits;
const signals: readonly Signal[] = ['SIGHUP', 'SIGINT', 'SIGTERM'];

/**
 * End the process on a signal, once whatever runs in threads of its own was stopped: they hear of none.
 *
 * @param stop - Stops it, and removes what it left.
 * @returns What takes this back.
 */
export function heedSignals(stop: () => Promise<void>): () => void {
  const listeners = signals.map((signal) => {
    const leave = (): void => {
      void stop().finally(() => process.exit(exits[signal]));
    };
    process.on(signal, leave);
    return () => process.off(signal, leave);
  });
  return () => {
    for (const take of listeners) take();
  };
}
