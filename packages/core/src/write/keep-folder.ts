import { lstat, mkdir, readdir, readFile, rm, rmdir, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { explainUnwritable } from './check-output.js';
import { inTurn } from './in-turn.js';
import { removeStale } from './stale-files.js';
import { writeAtomically } from './write-atomically.js';

/** A hidden folder for what can be made again. */
export interface KeepFolder {
  /** Where it lies. */
  readonly path: string;
  /**
   * Read what was kept.
   *
   * @param name - Of the file.
   * @returns Its bytes, or null where there are none.
   */
  readonly read: (name: string) => Promise<Buffer | null>;
  /**
   * Keep something, over what is there under that name.
   *
   * @param name - Of the file: letters, digits, one point.
   * @param pieces - Its bytes.
   */
  readonly write: (name: string, pieces: readonly Uint8Array[]) => Promise<void>;
  /**
   * Say that something is still of use.
   *
   * @param name - Of the file.
   * @returns Whether it is there.
   */
  readonly use: (name: string) => Promise<boolean>;
  /**
   * Drop what was of no use for longest.
   *
   * @param most - Bytes that may stay.
   * @returns Bytes dropped.
   */
  readonly prune: (most: number) => Promise<number>;
}

const folderName = '.gaugerod';
// Backups pass over folders that hold it: https://bford.info/cachedir/
const tagName = 'CACHEDIR.TAG';
const tag = `Signature: 8a477f597d28d172789f06886806bc55
# What gaugerod build keeps to be quicker the next time. It can be deleted at any time.
`;
const ours = /^[0-9a-f]{64}\.(surface|view|json)$/;

/**
 * Open the hidden folder beside a job; it is made when something is kept in it.
 *
 * @param folder - That the job lies in.
 * @returns What reads and writes it.
 * @throws TextureError where the place does not allow it.
 */
export async function openKeepFolder(folder: string): Promise<KeepFolder> {
  const path = join(folder, folderName);
  const found = await lstat(path).catch(() => null);
  if (found !== null && !found.isDirectory()) {
    const message = `${showPath(path)} is no folder, and what is kept from build to build goes there`;
    throw new TextureError('no-output-folder', message, { hint: 'move it out of the way' });
  }
  return {
    path,
    read: (name) => readFile(join(path, name)).catch(() => null),
    async write(name, pieces) {
      await makeKeepFolder(path);
      await put(path, name, pieces);
    },
    use: (name) => touch(join(path, name)),
    prune: (most) => prune(path, most),
  };
}

async function makeKeepFolder(path: string): Promise<void> {
  try {
    await mkdir(path, { recursive: true });
    const isTagged = await stat(join(path, tagName)).then(
      () => true,
      () => false,
    );
    if (!isTagged) await put(path, tagName, [Buffer.from(tag)]);
  } catch (cause) {
    throw explainUnwritable(path, cause);
  }
}

async function put(folder: string, name: string, pieces: readonly Uint8Array[]): Promise<void> {
  const path = join(folder, name);
  await writeAtomically(path, { path, mode: null }, inTurn(pieces));
}

async function touch(path: string): Promise<boolean> {
  const now = new Date();
  return utimes(path, now, now).then(
    () => true,
    () => false,
  );
}

interface Kept {
  readonly path: string;
  readonly size: number;
  readonly used: number;
}

async function listKept(folder: string): Promise<Kept[]> {
  const names = await readdir(folder).catch(() => []);
  const found = await Promise.all(
    names
      .filter((name) => ours.test(name))
      .map(async (name) => {
        const path = join(folder, name);
        const state = await stat(path).catch(() => null);
        return state && { path, size: state.size, used: state.mtimeMs };
      }),
  );
  return found.filter((one) => one !== null);
}

// Records take a few hundred bytes, and without them all is built anew.
async function prune(folder: string, most: number): Promise<number> {
  const kept = (await listKept(folder)).filter(({ path }) => !path.endsWith('.json'));
  let held = 0;
  let dropped = 0;
  for (const { path, size } of kept.sort((a, b) => b.used - a.used)) {
    if (held + size <= most) {
      held += size;
      continue;
    }
    await rm(path, { force: true }).catch(() => undefined);
    dropped += size;
  }
  return dropped;
}

/**
 * Delete the hidden folder beside a job, and nothing in it that is not ours.
 *
 * @param folder - That the job lies in.
 * @returns Bytes that were freed.
 */
export async function clearKeepFolder(folder: string): Promise<number> {
  const path = join(folder, folderName);
  const found = await lstat(path).catch(() => null);
  const text = await readFile(join(path, tagName), 'utf8').catch(() => '');
  if (found?.isDirectory() !== true || !text.startsWith('Signature: ')) return 0;
  removeStale(path, 'of the dead');
  const kept = await listKept(path);
  for (const one of kept) await rm(one.path, { force: true });
  const others = (await readdir(path)).filter((name) => name !== tagName);
  // What somebody else put there stays, and the folder with it.
  if (others.length === 0) {
    await rm(join(path, tagName), { force: true });
    await rmdir(path).catch(() => undefined);
  }
  return kept.reduce((sum, { size }) => sum + size, 0);
}

/**
 * Make the folders that files are to be written into.
 *
 * @param path - The innermost.
 * @throws TextureError where the place does not allow it.
 */
export async function makeFolders(path: string): Promise<void> {
  try {
    await mkdir(path, { recursive: true });
  } catch (cause) {
    throw explainUnwritable(path, cause);
  }
}
