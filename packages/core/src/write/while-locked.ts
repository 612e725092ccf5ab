import { readFile, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { codeOf, explainUnwritable } from './check-output.js';
import { isAlive } from './stale-files.js';
import { removeAtExit } from './write-atomically.js';

const pauseMs = 20;
const patienceMs = 10_000;

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
  await take(lock, path);
  const keep = removeAtExit(lock);
  try {
    return await work();
  } finally {
    await rm(lock, { force: true }).catch(() => undefined);
    keep();
  }
}

async function take(lock: string, path: string): Promise<void> {
  for (let waited = 0; waited < patienceMs; waited += pauseMs) {
    try {
      await writeFile(lock, String(process.pid), { flag: 'wx' });
      return;
    } catch (cause) {
      if (!isThere(cause)) throw explainUnwritable(path, cause);
    }
    if (await isLeft(lock)) await rm(lock, { force: true });
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

// Of a process that was killed. One that says nothing yet was only just made.
async function isLeft(lock: string): Promise<boolean> {
  const text = await readFile(lock, 'utf8').catch(() => '');
  return /^\d+$/.test(text) && !isAlive(Number(text));
}
