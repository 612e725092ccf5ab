import { createRequire } from 'node:module';
import type sharp from 'sharp';

/**
 * Load the decoder and encoder of pictures, for those who need it. It is one library in two forms, and as a
 * module of CommonJS it loads in half the time.
 *
 * @returns It, once for the process.
 */
export function loadSharp(): Promise<typeof sharp> {
  const loaded = createRequire(import.meta.url)('sharp') as typeof sharp;
  // Nothing is asked for twice, and what it would keep is more than a page's tiles.
  loaded.cache(false);
  return Promise.resolve(loaded);
}
