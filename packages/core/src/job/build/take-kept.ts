import { deserialize, serialize } from 'node:v8';
import type { KeepFolder } from '../../write/keep-folder.js';
import { isWhole, withoutSum, withSum } from './keep-surface.js';
import { keyOfView } from './step-key.js';

/**
 * Take what a report tells from where it was kept, or make it and keep it.
 *
 * @param from - All that it follows from: sums of files, keys of steps.
 * @param make - Makes it, or throws, where a file is another than its sum tells among other things.
 * @param keep - Where it is kept.
 * @returns It.
 */
export async function takeKept<Kept>(
  from: unknown,
  make: () => Promise<Kept>,
  keep: KeepFolder,
): Promise<Kept> {
  const name = `${keyOfView(from)}.view`;
  const bytes = await keep.read(name);
  if (bytes !== null && isWhole(bytes)) {
    await keep.use(name);
    return deserialize(withoutSum(bytes)) as Kept;
  }
  const made = await make();
  // What cannot be kept costs time the next time, and nothing else.
  await keep.write(name, withSum(serialize(made))).catch(() => undefined);
  return made;
}
