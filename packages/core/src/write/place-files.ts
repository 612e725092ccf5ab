import { copyFileSync, linkSync, lstatSync, renameSync, unlinkSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { explainUnwritable } from './check-output.js';
import { unfinishedName } from './stale-files.js';

const isWindows = process.platform === 'win32';

/** A file that is whole, and waits for its name. */
export interface WaitingFile {
  /** As the user gave it, for messages alone. */
  readonly path: string;
  /** Where it really goes. */
  readonly place: string;
  /** Where it lies. */
  readonly temporary: string;
}

/**
 * Give files their names: all of them, or, where one cannot have its own, none, and older ones are put back.
 *
 * @param files - Each in the folder that it goes to.
 * @param kept - Is told of older ones that are kept beside, for the caller to remove at the end, whatever happens.
 * @throws TextureError `unwritable` when the system does not let one take its name.
 */
export async function placeFiles(files: readonly WaitingFile[], kept: string[]): Promise<void> {
  // One alone is replaced at once or not at all.
  const older = files.length === 1 ? [] : files.map(({ place }) => keepOlder(place, kept));
  let placed = 0;
  try {
    for (const { place, temporary } of files) {
      await replace(temporary, place);
      placed++;
    }
    for (const folder of new Set(files.map(({ place }) => dirname(place))))
      await syncFolder(folder);
  } catch (cause) {
    files.slice(0, placed).forEach(({ place }, i) => {
      putBack(place, older[i]);
    });
    throw explainUnwritable((files[placed] ?? files.at(-1))?.path ?? '', cause);
  }
}

// What lay at a place: nothing, a file kept beside it, or what nobody may keep.
type Older = 'nothing' | 'unkept' | { readonly beside: string };

// By another name of the same file, so that it is missing at no time; a copy where a disk knows no such names.
function keepOlder(place: string, kept: string[]): Older {
  if (lstatSync(place, { throwIfNoEntry: false }) === undefined) return 'nothing';
  const beside = join(dirname(place), unfinishedName());
  kept.push(beside);
  for (const keep of [linkSync, copyFileSync]) {
    try {
      keep(place, beside);
      return { beside };
    } catch {
      // The other way, or none: what cannot be read may still be replaced.
    }
  }
  return 'unkept';
}

// What cannot be put back is a whole new file.
function putBack(place: string, older: Older | undefined): void {
  try {
    if (older === 'nothing') unlinkSync(place);
    else if (typeof older === 'object') renameSync(older.beside, place);
  } catch {
    // What went wrong first is told.
  }
}

// At once, so that no signal comes between files that belong together. On Windows a file that someone looks at cannot
// be replaced, most often for a moment only.
async function replace(from: string, to: string): Promise<void> {
  for (let tries = 1; ; tries++) {
    try {
      renameSync(from, to);
      return;
    } catch (cause) {
      if (!isWindows || tries === 10) throw cause;
      await wait(tries * 20);
    }
  }
}

// So that the new name outlives a power cut; Windows has no such call for folders.
async function syncFolder(path: string): Promise<void> {
  if (isWindows) return;
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}
