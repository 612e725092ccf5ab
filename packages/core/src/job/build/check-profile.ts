import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { stateOf } from '../../read/hash-file.js';
import type { Settings } from '../settings/settings.js';
import type { BuildStep } from './build-plan.js';

/**
 * Look whether a printer's profile that is set, and that a step reads, is there. It is no word of the job's, and may lie
 * anywhere.
 *
 * @param steps - Of the job.
 * @param settings - What is set.
 * @throws TextureError `bad-config` where it is not.
 */
export async function checkProfile(steps: readonly BuildStep[], settings: Settings): Promise<void> {
  const { printer } = settings.values;
  if (printer === undefined || !steps.some(({ set }) => set.includes('printer'))) return;
  if ((await stateOf(printer.text)) !== null) return;
  const told = `printing.printer is ${showPath(printer.text)}, which is no file`;
  throw new TextureError('bad-config', `${showPath(printer.file)}: ${told}`, {
    hint: 'name the profile that is there, or leave it out with --no-config',
  });
}
