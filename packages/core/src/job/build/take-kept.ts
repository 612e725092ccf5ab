import { deserialize, serialize } from 'node:v8';
import type { KeepFolder } from '../../write/keep-folder.js';
import { isWhole, withoutSum, withSum } from './keep-surface.js';
import { refuseChanged } from './refuse-changed.js';
import { keyOfView } from './step-key.js';
import type { StepPool } from './step-pool.js';
import type { View, ViewTask } from './view-task.js';

/** What views are kept and drawn with. */
export interface TakeViewOptions {
  /** Where they are kept. */
  readonly keep: KeepFolder;
  /** What draws them. */
  readonly pool: StepPool;
}

/**
 * Take something to look at from where it was kept, or draw it and keep it.
 *
 * @param task - What to draw.
 * @param from - All that it follows from beside the task's own words: sums of files, keys of steps.
 * @param options - Where it is kept, and what draws it.
 * @returns It.
 * @throws TextureError where a file does not allow it, or is another than its key tells.
 */
export async function takeView(
  task: () => Promise<ViewTask>,
  from: unknown,
  options: TakeViewOptions,
): Promise<View> {
  const { keep, pool } = options;
  const name = `${keyOfView(from)}.view`;
  const bytes = await keep.read(name);
  if (bytes !== null && isWhole(bytes)) {
    await keep.use(name);
    return deserialize(withoutSum(bytes)) as View;
  }
  const drawn = await task();
  const view = await pool.draw(drawn);
  await refuseChanged(drawn.inputs);
  // What cannot be kept costs time the next time, and nothing else.
  await keep.write(name, withSum(serialize(view))).catch(() => undefined);
  return view;
}
