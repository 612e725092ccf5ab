import { readdirSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';

/** Which files that were never finished are to go. */
export type WhichStale = 'of the dead' | 'of this process';

const pattern = /^\.gaugerod-(\d+)-[0-9a-f]+\.tmp$/;

/**
 * Remove files that were begun beside their targets and never finished: where a process is killed, nobody
 * else does.
 *
 * @param folder - In which.
 * @param which - Those of processes that are gone, or of this one, whose threads were stopped.
 */
export function removeStale(folder: string, which: WhichStale): void {
  for (const name of namesIn(folder)) {
    const pid = Number(pattern.exec(name)?.[1] ?? NaN);
    const isOurs = pid === process.pid;
    if (Number.isNaN(pid) || (which === 'of this process' ? !isOurs : isOurs || isAlive(pid)))
      continue;
    try {
      unlinkSync(join(folder, name));
    } catch {
      // Gone already, or not ours to remove.
    }
  }
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    // One of somebody else's lives, too.
    return cause instanceof Error && 'code' in cause && cause.code === 'EPERM';
  }
}
