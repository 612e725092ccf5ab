import { randomBytes } from 'node:crypto';
import { readdirSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { threadId } from 'node:worker_threads';

/** Which files that were never finished are to go: of processes that are gone, or of these threads of this one. */
export type WhichStale = 'of the dead' | readonly number[];

const pattern = /^\.gaugerod-(\d+)-(\d+)-[0-9a-f]+\.tmp$/;

/**
 * Name a file that is not finished yet.
 *
 * @returns A name that nobody else has, and that tells who began it.
 */
export function unfinishedName(): string {
  return `.gaugerod-${process.pid}-${threadId}-${randomBytes(6).toString('hex')}.tmp`;
}

/**
 * Remove files that were begun beside their targets and never finished: where a process is killed, nobody
 * else does.
 *
 * @param folder - In which.
 * @param which - Those of processes that are gone, or of threads of this one that were stopped.
 */
export function removeStale(folder: string, which: WhichStale): void {
  for (const name of namesIn(folder)) {
    const [, pid, thread] = pattern.exec(name) ?? [];
    if (pid === undefined || !isStale(Number(pid), Number(thread), which)) continue;
    try {
      unlinkSync(join(folder, name));
    } catch {
      // Gone already, or not ours to remove.
    }
  }
}

function isStale(pid: number, thread: number, which: WhichStale): boolean {
  const isOurs = pid === process.pid;
  return which === 'of the dead' ? !isOurs && !isAlive(pid) : isOurs && which.includes(thread);
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

/**
 * Tell whether a process runs.
 *
 * @param pid - Its number.
 * @returns Whether it does, whoever's it is.
 */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    // One of somebody else's lives, too.
    return cause instanceof Error && 'code' in cause && cause.code === 'EPERM';
  }
}
