import type { LimitOptions } from '../../limits/limits.js';
import { withLimits } from '../../read/held-limits.js';
import { findSettings } from '../../read/find-settings.js';
import { filesOf, noSettings, type Settings } from './settings.js';

/**
 * Read what a user set, once for all of their work: defaults, in `gaugerod.config.yaml` of a folder or the nearest one above
 * it, no higher than the user's home, and in `config.yaml` of the folder that the system has for such files; and references
 * of their own. Limits stand in that `config.yaml` alone. Nothing of it holds unless it is handed on: no other function of
 * this library looks for it.
 *
 * @param folder - Where to begin; the working folder unless told.
 * @param options - What those files may ask for.
 * @returns What is set, the nearer file before the other; nothing where there is none.
 * @throws TextureError `bad-config` or `bad-references`, with file, line and column, or why a file cannot be read.
 */
export async function openSettings(folder = '.', options: LimitOptions = {}): Promise<Settings> {
  const found = await findSettings(folder);
  if (found.configs.length === 0 && !found.hasReferences) {
    const { references: referenceFile, places } = found;
    return { ...noSettings, referenceFile, files: filesOf(places, referenceFile) };
  }
  const { readSettings } = await import('./read-settings.js');
  return withLimits(options, () => readSettings(found));
}
