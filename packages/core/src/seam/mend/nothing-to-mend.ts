import type { Warning } from '../../errors/warning.js';
import type { JoinMethod } from './join-overlap.js';

/**
 * Say that a picture was left as it is.
 *
 * @param method - How it was to be mended.
 * @returns The warning.
 */
export function nothingToMend(method: JoinMethod | 'auto'): Warning {
  const asked = method === 'auto' ? '' : ' and the method made no difference';
  const message = `the picture meets itself already, so nothing was mended${asked}`;
  return { code: 'already-seamless', message };
}
