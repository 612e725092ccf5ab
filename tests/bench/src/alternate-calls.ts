import { type Timing, toTiming } from './alternate.js';

/** A call to time in this process. */
export interface Call {
  readonly name: string;
  readonly run: () => Promise<unknown>;
}

async function timeOnce({ run }: Call): Promise<number> {
  const before = process.cpuUsage();
  await run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/**
 * Time calls in turn in this process, by the processor time of all its threads, which other work of
 * the machine changes little. The first rounds are not counted: until then code is being compiled.
 *
 * @param calls - Each is awaited before the next.
 * @param rounds - Counted rounds.
 * @returns One timing a call, in the order given.
 */
export async function alternateCalls(calls: readonly Call[], rounds: number): Promise<Timing[]> {
  const samples = calls.map((): number[] => []);
  for (let round = -3; round < rounds; round++) {
    for (const [index, call] of calls.entries()) {
      const spent = await timeOnce(call);
      if (round >= 0) samples[index]!.push(spent);
    }
  }
  return calls.map(({ name }, index) => toTiming(name, samples[index]!));
}
