import { randomBytes } from 'node:crypto';
import { readdirSync, statSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { threadId } from 'node:worker_threads';
import { isGone, markProcess } from './process-mark.js';

/** Which files that were never finished are to go: of processes that are gone, or of these threads of this one. */
export type WhichStale = 'of the dead' | readonly number[];

const pattern = /^\.gaugerod-([0-9a-f]{8}-\d+)-(\d+)-[0-9a-f]+\.tmp$/;

/**
 * Name a file that is not finished yet.
 *
 * @returns A name that nobody else has, and that tells who began it.
 */
export function unfinishedName(): string {
  return `.gaugerod-${markProcess()}-${threadId}-${randomBytes(6).toString('hex')}.tmp`;
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
    const [, mark, thread] = pattern.exec(name) ?? [];
    if (mark === undefined) continue;
    const path = join(folder, name);
    try {
      if (isStale(path, { mark, thread: Number(thread) }, which)) unlinkSync(path);
    } catch {
      // Gone already, or not ours to remove.
    }
  }
}

interface Maker {
  readonly mark: string;
  readonly thread: number;
}

function isStale(path: string, { mark, thread }: Maker, which: WhichStale): boolean {
  const isOurs = mark === markProcess();
  if (which !== 'of the dead') return isOurs && which.includes(thread);
  return !isOurs && isGone(mark, () => statSync(path).mtimeMs);
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
