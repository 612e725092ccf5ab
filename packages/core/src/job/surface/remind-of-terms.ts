import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { Sidecar } from '../../surface/sidecar.js';

/**
 * Remind of a photo's terms. Who kept them beside the photo has read them.
 *
 * @param path - Of the photo.
 * @param kept - What was kept beside it, or null.
 * @returns The warning, if any.
 */
export function remindOfTerms(
  path: string,
  kept: Pick<Sidecar, 'licence'> | null,
): readonly Warning[] {
  if (kept?.licence !== undefined && kept.licence !== null) return [];
  const message = `check that the licence of ${showPath(path)} allows printing (and selling) the model`;
  return [{ code: 'caution', message }];
}
