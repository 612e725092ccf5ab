import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promise } from './reader.js';

/**
 * Make a folder to work in, which is gone when the process is.
 *
 * @returns Its path.
 */
export function workFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-fuzz-'));
  process.once('exit', () => {
    rmSync(folder, { recursive: true, force: true });
  });
  return folder;
}

/**
 * Do a job that writes into a folder of its own: all of it or nothing.
 *
 * @param folder - Where that is made.
 * @param work - Given the folder for what it writes; returns whether it was done.
 * @param check - Looks at each file written.
 */
export async function wholeOrNothing(
  folder: string,
  work: (out: string) => Promise<boolean>,
  check: (bytes: Buffer, name: string) => void,
): Promise<void> {
  const out = join(folder, 'out');
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out);
  const files = (): readonly string[] => readdirSync(out, { recursive: true, encoding: 'utf8' });
  let isDone = false;
  try {
    isDone = await work(out);
  } finally {
    if (!isDone) promise(files().length === 0, `nothing is left behind: ${files().join(', ')}`);
  }
  promise(!isDone || files().length > 0, 'something is written');
  for (const name of files()) {
    promise(!/^\.|\.tmp|gaugerod-[\da-f]/.test(name), `no file for a while is left: ${name}`);
    const path = join(out, name);
    if (statSync(path).isFile()) check(readFileSync(path), name);
  }
}
