import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { access, lstat, mkdir, readFile, realpath, rmdir, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { explainUnwritable } from './check-output.js';
import { inTurn } from './in-turn.js';
import { writeAtomically, writeTogether } from './write-atomically.js';

/** A folder that pictures are written into, beside those that are there. */
export interface PictureFolder {
  /**
   * Write a picture, unless the same lies there already. No other file is ever written over.
   *
   * @param stem - What its name begins with.
   * @param extension - With its dot.
   * @param bytes - The file.
   * @returns Its real path.
   */
  readonly add: (stem: string, extension: string, bytes: Uint8Array) => Promise<string>;
}

// System's limits are in bytes, and a name may take four a character.
const longestStem = 40;

/** What a caller may ask of {@link withPictureFolder}. */
export interface PictureFolderOptions {
  /** Whether nothing is to be written, names alone are asked. */
  readonly dry: boolean;
}

/**
 * Write pictures into a folder, and with them what shows them: all take their names together, or none does. The folder
 * is made where it does not exist, and goes again where nothing came of it.
 *
 * @param path - Of the folder, whose own folder exists.
 * @param options - Whether it is meant.
 * @param work - Writes them.
 * @returns What that gives.
 * @throws TextureError when the place does not allow it; what `work` throws is passed on.
 */
export async function withPictureFolder<Value>(
  path: string,
  options: PictureFolderOptions,
  work: (folder: PictureFolder) => Promise<Value>,
): Promise<Value> {
  if (options.dry) return work(pictureFolder(path, resolve(path), options));
  const isNew = await makeFolder(path);
  const folder = await realpath(path);
  try {
    return await writeTogether(
      () => work(pictureFolder(path, folder, options)),
      isNew ? folder : null,
    );
  } finally {
    // Of an empty one alone: a drawing may have had no pictures.
    if (isNew) await rmdir(folder).catch(() => undefined);
  }
}

function pictureFolder(path: string, folder: string, { dry }: PictureFolderOptions): PictureFolder {
  // What waits for its name, by the sums of all of it.
  const waiting = new Map<string, string>();
  return {
    async add(stem, extension, bytes) {
      const sum = createHash('sha256').update(bytes).digest('hex');
      for (let length = 8; ; length += 8) {
        const name = `${stem.slice(0, longestStem)}-${sum.slice(0, length)}${extension}`;
        const target = join(folder, name);
        if (waiting.get(target) === sum) return target;
        const taken = await lstat(target).catch(() => null);
        const there = taken?.isFile() === true ? await readFile(target).catch(() => null) : null;
        if (there?.equals(bytes) === true) return target;
        if ((taken !== null || waiting.has(target)) && length < sum.length) continue;
        if (dry) return target;
        waiting.set(target, sum);
        await writeAtomically(join(path, name), { path: target, mode: null }, inTurn([bytes]));
        return target;
      }
    },
  };
}

/**
 * Refuse a folder for pictures before the long work that leads to it.
 *
 * @param path - Of the folder, which may not be there yet.
 * @throws TextureError `no-output-folder` or `unwritable`.
 */
export async function checkPictureFolder(path: string): Promise<void> {
  const folder = (await isFolder(path)) ? path : dirname(resolve(path));
  try {
    if (folder !== path && !(await stat(folder)).isDirectory()) {
      const message = `the folder of ${showPath(path)} is a file, not a folder`;
      throw new TextureError('no-output-folder', message);
    }
    await access(folder, constants.W_OK);
  } catch (cause) {
    throw explainFolder(path, cause);
  }
}

// Refuses whatever is no folder; nothing at all may become one.
async function isFolder(path: string): Promise<boolean> {
  const found = await stat(path).catch(() => null);
  if (found?.isDirectory() === true) return true;
  const isLink = (await lstat(path).catch(() => null))?.isSymbolicLink() === true;
  if (found === null && !isLink) return false;
  const what = found === null ? 'a symbolic link that leads nowhere' : 'a file';
  throw new TextureError('no-output-folder', `${showPath(path)} is ${what}, not a folder`);
}

async function makeFolder(path: string): Promise<boolean> {
  if (await isFolder(path)) return false;
  try {
    await mkdir(path);
    return true;
  } catch (cause) {
    throw explainFolder(path, cause);
  }
}

function explainFolder(path: string, cause: unknown): unknown {
  if (!(cause instanceof Error && 'code' in cause && cause.code === 'ENOENT')) {
    return explainUnwritable(path, cause);
  }
  return new TextureError('no-output-folder', `the folder of ${showPath(path)} does not exist`, {
    hint: 'make the folder first',
    cause,
  });
}
