import { spawnSync } from 'node:child_process';
import { performance } from 'node:perf_hooks';

/** A command line to time as a whole process. */
export interface Contender {
  readonly name: string;
  readonly argv: readonly string[];
}

/** Milliseconds of one contender. */
export interface Timing {
  readonly name: string;
  readonly medianMs: number;
  readonly minMs: number;
  readonly maxMs: number;
}

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
};

function timeOnce(contender: Contender): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, contender.argv, { encoding: 'utf8' });
  const elapsed = performance.now() - start;
  if (status !== 0) throw new Error(`${contender.name} ended with ${String(status)}: ${stderr}`);
  return elapsed;
}

/**
 * Time whole processes in turn, A B A B, after one uncounted round, so that a drift of the
 * machine's speed meets all of them alike.
 *
 * @param contenders - Arguments to Node, each.
 * @param rounds - Counted rounds.
 * @returns One timing a contender, in the order given.
 */
export function alternate(contenders: readonly Contender[], rounds: number): Timing[] {
  const samples = contenders.map((): number[] => []);
  for (let round = -1; round < rounds; round++) {
    contenders.forEach((contender, index) => {
      const elapsed = timeOnce(contender);
      if (round >= 0) samples[index]!.push(elapsed);
    });
  }
  return contenders.map(({ name }, index) => toTiming(name, samples[index]!));
}

/**
 * Sum up what one contender took.
 *
 * @param name - The contender's.
 * @param values - Milliseconds, one or more.
 * @returns Its timing.
 */
export function toTiming(name: string, values: readonly number[]): Timing {
  const [minMs, maxMs] = [Math.min(...values), Math.max(...values)];
  return { name, medianMs: median(values), minMs, maxMs };
}

/**
 * Print timings as a table, the last one taken as the peer that the others are compared with.
 *
 * @param timings - From {@link alternate}.
 */
export function printTimings(timings: readonly Timing[]): void {
  const peer = timings.at(-1);
  if (peer === undefined) return;
  for (const { name, medianMs, minMs, maxMs } of timings) {
    const ratio = (medianMs / peer.medianMs).toFixed(2);
    console.log(
      `${name.padEnd(44)} median ${medianMs.toFixed(0).padStart(6)} ms  (${minMs.toFixed(0)} to ${maxMs.toFixed(0)})  x${ratio}`,
    );
  }
}
