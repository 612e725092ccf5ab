import type { JobOptions } from '../job-options.js';
import type { View, ViewTask } from './view-task.js';

/**
 * Draw what a report is to show.
 *
 * @param task - Which.
 * @param options - What stops it.
 * @returns The picture.
 * @throws TextureError when a file does not allow it.
 */
export async function drawView(task: ViewTask, options: JobOptions): Promise<View> {
  options.signal?.throwIfAborted();
  switch (task.kind) {
    case 'found':
      return (await import('./draw-found.js')).drawFound(task);
    case 'tiled':
      return (await import('./draw-tiled.js')).drawTiled(task);
    case 'shown':
      return (await import('./draw-shown.js')).drawShown(task);
  }
}
