import { linkSync, readFileSync, renameSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { codeOf, explainUnwritable } from './check-output.js';
import { isGone, markProcess } from './process-mark.js';
import { unfinishedName } from './stale-files.js';
import { removeAtExit } from './write-atomically.js';

const pauseMs = 20;
const patienceMs = 10_000;
// So long nobody takes to write a number into a lock just made.
const emptyMs = 5000;
// Of this process, the last to ask for each lock: one waits for the other here, not on the disk.
const turns = new Map<string, Promise<unknown>>();

/**
 * Do something to a file that is read, changed and written anew, while nobody else of us does so in its folder.
 *
 * @param path - Of the real file, links followed; it need not be there.
 * @param work - What is to be done.
 * @returns What that gave.
 * @throws TextureError `unwritable` when the place does not allow it, or another process is at it for longer than 10 s.
 */
export async function whileLocked<Value>(path: string, work: () => Promise<Value>): Promise<Value> {
  const lock = join(dirname(path), '.gaugerod.lock');
  const before = turns.get(lock) ?? Promise.resolve();
  const own = before.then(() => workAlone(lock, path, work));
  const ended = own.then(
    () => undefined,
    () => undefined,
  );
  turns.set(lock, ended);
  try {
    return await own;
  } finally {
    if (turns.get(lock) === ended) turns.delete(lock);
  }
}

async function workAlone<Value>(
  lock: string,
  path: string,
  work: () => Promise<Value>,
): Promise<Value> {
  const held: string[] = [];
  const forget = removeAtExit(() => held);
  try {
    await take(lock, path, held);
    return await work();
  } finally {
    held.forEach(remove);
    forget();
  }
}

// Signals, once listened to, come between two turns of the process: it has made the lock and listed it, or neither.
async function take(lock: string, path: string, held: string[]): Promise<void> {
  for (let waited = 0; waited < patienceMs; waited += pauseMs) {
    try {
      writeFileSync(lock, markProcess(), { flag: 'wx' });
      held.push(lock);
      return;
    } catch (cause) {
      if (!isThere(cause)) throw explainUnwritable(path, cause);
    }
    if (isLeft(lock)) clear(lock);
    else await wait(pauseMs);
  }
  throw new TextureError('unwritable', `${showPath(path)} is being changed by somebody else`, {
    hint: `try again; where nobody is at it, remove ${showPath(lock)}`,
  });
}

// Windows says so of one that is just being removed.
function isThere(cause: unknown): boolean {
  const code = codeOf(cause);
  return code === 'EEXIST' || (process.platform === 'win32' && code === 'EPERM');
}

// Removed at once it could be the lock that another process, which saw the same, has made since: it is taken aside first.
function clear(lock: string): void {
  const aside = join(dirname(lock), unfinishedName());
  try {
    renameSync(lock, aside);
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT') return;
    throw explainUnwritable(lock, cause);
  }
  if (!isLeft(aside)) putBack(aside, lock);
  remove(aside);
}

function putBack(aside: string, lock: string): void {
  try {
    linkSync(aside, lock);
  } catch {
    // Somebody has made one since.
  }
}

function remove(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    // Gone already, or the folder is no longer ours to change.
  }
}

// Of a process that was killed. One that says nothing yet was only just made, or its maker was killed in between.
function isLeft(lock: string): boolean {
  try {
    const mark = readFileSync(lock, 'utf8');
    const { mtimeMs } = statSync(lock);
    if (mark === '') return Date.now() - mtimeMs > emptyMs;
    return /^[0-9a-f]{8}-\d+$/.test(mark) && isGone(mark, () => mtimeMs);
  } catch {
    return false;
  }
}
