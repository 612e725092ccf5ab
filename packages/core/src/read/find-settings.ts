import { lstat } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { homeFolder, userFolder } from './user-folder.js';

/** Where what a user set lies. */
export interface FoundSettings {
  /** Files of defaults that are there, the nearest first. */
  readonly configs: readonly string[];
  /** Which of them is the user's own, lying where nobody hands a folder over; null where it is not there. */
  readonly own: string | null;
  /** The user's own file of references, which need not be there; null where there is no place for it. */
  readonly references: string | null;
  /** Whether it is. */
  readonly hasReferences: boolean;
  /** Wherever a file of defaults was looked for, there or not. */
  readonly places: readonly string[];
}

const configName = 'gaugerod.config.yaml';

/**
 * Look for what the user set: in a folder or the nearest one above that holds a file of defaults, no higher than the
 * user's home where the folder lies in it; and in the folder that the system has for such things.
 *
 * @param folder - Where to begin.
 * @returns What there is. Nothing of it is read.
 */
export async function findSettings(folder: string): Promise<FoundSettings> {
  const user = userFolder();
  const { near, passed } = await findUpwards(resolve(folder));
  const place = user === null ? null : shown(join(user, 'config.yaml'));
  const own = place !== null && (await isThere(place)) ? place : null;
  const references = user === null ? null : shown(join(user, 'references.yaml'));
  return {
    configs: [near, own].filter((path) => path !== null),
    own,
    references,
    hasReferences: references !== null && (await isThere(references)),
    places: [...passed, near, place].filter((path) => path !== null),
  };
}

interface FoundUpwards {
  readonly near: string | null;
  readonly passed: readonly string[];
}

async function findUpwards(folder: string): Promise<FoundUpwards> {
  const home = homeFolder();
  const passed: string[] = [];
  for (let here = folder; ; here = dirname(here)) {
    const path = join(here, configName);
    if (await isThere(path)) return { near: shown(path), passed };
    passed.push(shown(path));
    if (here === home || here === dirname(here)) return { near: null, passed };
  }
}

// Whatever it is: what is wrong with it is for its reader to say.
async function isThere(path: string): Promise<boolean> {
  return lstat(path).then(
    () => true,
    () => false,
  );
}

// Short where it lies in the working folder, whole elsewhere.
function shown(path: string): string {
  const way = relative('', path);
  return way.startsWith('..') || isAbsolute(way) ? path : way;
}
