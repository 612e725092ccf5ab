import { AsyncLocalStorage } from 'node:async_hooks';
import { rmdirSync, unlinkSync } from 'node:fs';
import { type FileHandle, open, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { explainUnwritable, type OutputTarget } from './check-output.js';
import type { Piece } from './formats/format.js';
import { leaveProcess, type Signal, signals, unlessLeaving } from './leave-process.js';
import { placeFiles, type WaitingFile } from './place-files.js';
import { removeStale, unfinishedName } from './stale-files.js';

function stop(signal: Signal): void {
  // Whoever else listens decides when to leave; our file is removed as the process ends.
  if (process.listeners(signal).some((listener) => listener !== stop)) return;
  void leaveProcess(signal);
}

/**
 * Remove files however the process ends, until told that it need not.
 *
 * @param list - Gives their paths, as they are by then.
 * @param folder - One that was made for them, and goes with them where it is empty; none unless told.
 * @returns Tells so.
 */
export function removeAtExit(
  list: () => readonly string[],
  folder: string | null = null,
): () => void {
  const remove = (): void => {
    for (const path of list()) {
      try {
        unlinkSync(path);
      } catch {
        // It was not made yet, or is gone: either way nothing is left behind.
      }
    }
    try {
      if (folder !== null) rmdirSync(folder);
    } catch {
      // Somebody else put something there.
    }
  };
  process.on('exit', remove);
  for (const signal of signals) process.on(signal, stop);
  return () => {
    process.off('exit', remove);
    for (const signal of signals) process.off(signal, stop);
  };
}

// Bytes that wait to be handed to the system in one call, which costs more than copying a small piece does.
const enough = 1 << 19;

async function writeAll(file: FileHandle, pieces: AsyncIterable<Piece>): Promise<void> {
  let end = 0;
  let waiting: Uint8Array[] = [];
  let bytes = 0;
  const flush = async (): Promise<void> => {
    await writeRun(file, waiting, end);
    end += bytes;
    [waiting, bytes] = [[], 0];
  };
  for await (const piece of pieces) {
    await unlessLeaving();
    if (piece instanceof Uint8Array) {
      waiting.push(piece);
      bytes += piece.length;
      if (bytes >= enough) await flush();
    } else {
      await flush();
      await writeRun(file, [piece.bytes], piece.at);
      end = Math.max(end, piece.at + piece.bytes.length);
    }
  }
  await flush();
}

async function writeRun(
  file: FileHandle,
  run: readonly Uint8Array[],
  place: number,
): Promise<void> {
  let at = place;
  for (let rest = run; rest.length > 0;) {
    const { bytesWritten } = await file.writev(rest, at);
    at += bytesWritten;
    rest = dropBytes(rest, bytesWritten);
  }
}

// The system may take less than it is handed.
function dropBytes(run: readonly Uint8Array[], count: number): readonly Uint8Array[] {
  let left = count;
  for (const [index, piece] of run.entries()) {
    if (left < piece.length) return [piece.subarray(left), ...run.slice(index + 1)];
    left -= piece.length;
  }
  return [];
}

async function fill(
  path: string,
  mode: number | null,
  pieces: AsyncIterable<Piece>,
): Promise<void> {
  const file = await open(path, 'wx');
  try {
    await writeAll(file, pieces);
    if (mode !== null) await file.chmod(mode);
    await file.sync();
  } finally {
    await file.close();
  }
}

// Writers of all formats end in writeAtomically, so that none of them need be told whether others belong to theirs.
const together = new AsyncLocalStorage<WaitingFile[]>();

/**
 * Write files that belong together: each whole beside its place, and only once the last is, they take their names, all
 * or none. So older ones are not mixed with new ones, whatever goes wrong on the way. No system renames several files at
 * once: a process that is killed, or a machine that stops, in the moment between two names leaves some old and some new
 * ones, each of them whole. Within another such work they are of those, and wait for all.
 *
 * @param work - Writes them one after another, by whatever leads to {@link writeAtomically}.
 * @param folder - One that was made for them: an interrupt leaves it no more than them. None unless told.
 * @returns What it gives.
 * @throws TextureError `unwritable` when the system does not let one take its name; what `work` throws is passed on.
 */
export async function writeTogether<Value>(
  work: () => Promise<Value>,
  folder: string | null = null,
): Promise<Value> {
  if (together.getStore() !== undefined) return work();
  const files: WaitingFile[] = [];
  const kept: string[] = [];
  const unfinished = (): string[] => [...files.map(({ temporary }) => temporary), ...kept];
  const keep = removeAtExit(unfinished, folder);
  try {
    const value = await together.run(files, work);
    await unlessLeaving();
    await placeFiles(files, kept);
    return value;
  } finally {
    for (const path of unfinished()) await rm(path, { force: true }).catch(() => undefined);
    keep();
  }
}

// Each once: in a folder of thousands it takes a while to look.
const swept = new Set<string>();

// What a process that was killed left where this one writes.
function sweepOnce(folder: string): void {
  if (swept.has(folder)) return;
  swept.add(folder);
  removeStale(folder, 'of the dead');
}

/**
 * Write a file whole or not at all: into another file beside it, synced, then renamed. Until then
 * an older file stays as it is; whatever goes wrong, and on SIGHUP, SIGINT and SIGTERM too, nothing is left. What a
 * killed process left in that folder is removed.
 * Within {@link writeTogether} it is renamed with the others.
 *
 * @param path - As the user gave it, for messages alone.
 * @param target - Where it really goes, as {@link checkOutput} found it.
 * @param pieces - Its bytes, in order, and what goes back; what they throw is passed on.
 * @throws TextureError `unwritable` when the system does not let it.
 */
export async function writeAtomically(
  path: string,
  target: OutputTarget,
  pieces: AsyncIterable<Piece>,
): Promise<void> {
  const files = together.getStore();
  if (files === undefined) {
    await writeTogether(() => writeAtomically(path, target, pieces));
    return;
  }
  const folder = dirname(target.path);
  sweepOnce(folder);
  const temporary = join(folder, unfinishedName());
  files.push({ path, place: target.path, temporary });
  try {
    await unlessLeaving();
    await fill(temporary, target.mode, pieces);
  } catch (cause) {
    throw explainUnwritable(path, cause);
  }
}
