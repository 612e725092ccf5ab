import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';

const name = 'gaugerod';

/**
 * Tell which folder holds what a user of this machine keeps for all of their work.
 *
 * @returns `gaugerod` in `XDG_CONFIG_HOME` where that is set to an absolute path, else in the folder that the system has
 *   for it: `~/.config`, on Windows `%APPDATA%`, on macOS `~/Library/Application Support`; null where the system knows of
 *   no home.
 * @see XDG Base Directory Specification 0.8, which says to pass over a relative path; KNOWNFOLDERID, FOLDERID_RoamingAppData,
 *   of Windows; File System Programming Guide of macOS
 */
export function userFolder(): string | null {
  const { XDG_CONFIG_HOME: told = '', APPDATA: roaming = '' } = process.env;
  if (isAbsolute(told)) return join(told, name);
  if (process.platform === 'win32') return isAbsolute(roaming) ? join(roaming, name) : null;
  const home = homeFolder();
  if (home === null) return null;
  const own = process.platform === 'darwin' ? ['Library', 'Application Support'] : ['.config'];
  return join(home, ...own, name);
}

/**
 * Tell which folder is the user's own.
 *
 * @returns Its path, or null where the system knows of none.
 */
export function homeFolder(): string | null {
  try {
    const home = homedir();
    return isAbsolute(home) ? home : null;
  } catch {
    return null;
  }
}
