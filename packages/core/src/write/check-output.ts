import { type BigIntStats, constants } from 'node:fs';
import { access, readlink, realpath, stat } from 'node:fs/promises';
import { basename, dirname, extname, join, resolve, sep } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { pictureFormats } from './formats/index.js';

/** What a caller may ask of {@link checkOutput}. */
export interface CheckOutputOptions {
  /** Files that must not be written over: the photo and all else that is read. */
  readonly inputs?: readonly string[];
  /** Extensions that the name may end with, such as `.png`: by default those of a picture. */
  readonly extensions?: readonly string[];
}

/** Where an output goes once links are followed. */
export interface OutputTarget {
  /** Of the real file, which may not be there yet. */
  readonly path: string;
  /** Permission bits of the file that is there, or null. */
  readonly mode: number | null;
}

/**
 * Name what the system calls a fault.
 *
 * @param cause - Whatever was thrown.
 * @returns `ENOENT` and the like.
 */
export function codeOf(cause: unknown): string {
  return cause instanceof Error && 'code' in cause ? String(cause.code) : 'unknown error';
}

async function statIfThere(path: string): Promise<BigIntStats | null> {
  try {
    return await stat(path, { bigint: true });
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT') return null;
    throw cause;
  }
}

function listed(extensions: readonly string[]): string {
  const last = extensions.at(-1) ?? '';
  const rest = extensions.slice(0, -1);
  return rest.length === 0 ? last : `${rest.join(', ')} or ${last}`;
}

function checkExtension(path: string, extensions: readonly string[]): void {
  const shown = showPath(path);
  const extension = extname(path).toLowerCase();
  if (extensions.includes(extension)) return;
  const stem = basename(path, extname(path));
  const [first = ''] = extensions;
  if (extensions.includes(basename(path).toLowerCase())) {
    const hint = `name it ${showPath(`part${basename(path)}`)}`;
    throw new TextureError('unsupported-output', `${shown} is an extension without a name`, {
      hint,
    });
  }
  const what = extension === '' ? 'has no extension' : `ends with ${showPath(extension)}`;
  throw new TextureError(
    'unsupported-output',
    `${shown} ${what}, and what is written is ${listed(extensions)}`,
    { hint: `name it ${showPath(`${stem}${first}`)}` },
  );
}

async function checkFolder(path: string): Promise<string> {
  const folder = dirname(resolve(path));
  const shown = showPath(path);
  const found = await statIfThere(folder);
  if (found === null) {
    throw new TextureError('no-output-folder', `the folder of ${shown} does not exist`, {
      hint: 'make the folder first',
    });
  }
  if (!found.isDirectory()) {
    throw new TextureError('no-output-folder', `the folder of ${shown} is a file, not a folder`);
  }
  await access(folder, constants.W_OK);
  return realpath(folder);
}

async function checkInputs(
  path: string,
  found: BigIntStats,
  inputs: readonly string[],
): Promise<void> {
  for (const input of inputs) {
    // What is wrong with an input is for its reader to say.
    const read = await statIfThere(input).catch(() => null);
    if (read?.dev !== found.dev || read.ino !== found.ino) continue;
    const same = resolve(input) === resolve(path);
    throw new TextureError(
      'output-is-input',
      same
        ? `${showPath(path)} is the input, which is never written over`
        : `${showPath(path)} is the same file as the input ${showPath(input)}, which is never written over`,
      { hint: 'give the output another name' },
    );
  }
}

async function refuseDangling(path: string): Promise<void> {
  const link = await readlink(path).catch(() => null);
  if (link === null) return;
  const message = `${showPath(path)} is a symbolic link to ${showPath(link)}, which does not exist`;
  throw new TextureError('unwritable', message);
}

async function check(path: string, inputs: readonly string[]): Promise<OutputTarget> {
  if (path.endsWith('/') || path.endsWith(sep)) {
    const message = `${showPath(path)} ends as the name of a folder does, and is to be a file`;
    throw new TextureError('output-not-a-file', message);
  }
  const folder = await checkFolder(path);
  const found = await statIfThere(path);
  if (found === null) {
    await refuseDangling(path);
    return { path: join(folder, basename(path)), mode: null };
  }
  if (!found.isFile()) {
    const what = found.isDirectory() ? 'a folder' : 'a device or pipe';
    throw new TextureError('output-not-a-file', `${showPath(path)} is ${what}, not a file`);
  }
  await checkInputs(path, found, inputs);
  await access(path, constants.W_OK);
  return { path: await realpath(path), mode: Number(found.mode & 0o7777n) };
}

const meanings = new Map([
  ['ENAMETOOLONG', 'cannot be written: the name is too long for this system'],
  ['ELOOP', 'cannot be written: it is a symbolic link that leads round in a circle'],
  ['EACCES', 'may not be written: permission is denied'],
  ['EPERM', 'may not be written: permission is denied'],
  ['EROFS', 'cannot be written: the disk is read-only'],
  ['ENOSPC', 'cannot be written: the disk is full'],
  ['EDQUOT', 'cannot be written: the disk quota is used up'],
  ['ENOTDIR', 'cannot be written: its folder is a file, not a folder'],
]);

/**
 * Word what the system says when a file cannot be written.
 *
 * @param path - As the user gave it.
 * @param cause - What was thrown.
 * @returns The error to throw: ours where it is ours already.
 */
export function explainUnwritable(path: string, cause: unknown): unknown {
  const code = codeOf(cause);
  const system = cause instanceof Error && 'syscall' in cause;
  if (!system) return cause;
  const what = meanings.get(code) ?? `cannot be written (${code})`;
  return new TextureError('unwritable', `${showPath(path)} ${what}`, { cause });
}

/**
 * Refuse an output before the long work that leads to it. Links are followed, so that an input is
 * known by whatever name the output reaches it.
 *
 * @param path - Of the output, which may be there already.
 * @param options - What it must not be, and how it may end.
 * @returns Where it really goes.
 * @throws TextureError `output-is-input`, `output-not-a-file`, `no-output-folder`,
 * `unsupported-output` or `unwritable`.
 */
export async function checkOutput(
  path: string,
  options: CheckOutputOptions = {},
): Promise<OutputTarget> {
  const { inputs = [], extensions = pictureFormats.flatMap((format) => format.extensions) } =
    options;
  if (path === '') throw new TextureError('unwritable', 'the name of the output is empty');
  if (path.includes('\0')) {
    const message = `${showPath(path)} cannot be a file: its name holds a NUL`;
    throw new TextureError('unwritable', message);
  }
  try {
    const target = await check(path, inputs);
    checkExtension(path, extensions);
    return target;
  } catch (cause) {
    throw explainUnwritable(path, cause);
  }
}
