import { setImmediate } from 'node:timers/promises';
import type { RowSource } from '../raster/row-source.js';

/** A picture that is written, whose rows may be a while in coming. */
export type WrittenRows = Omit<RowSource, 'rows'> & {
  /**
   * Begin at the top.
   *
   * @returns Rows, as those of a {@link RowSource}.
   */
  readonly rows: () => Iterable<Uint8Array> | AsyncIterable<Uint8Array>;
};

// Milliseconds in which nobody minds that a signal is not heard.
const patience = 50;

/**
 * Hand on a picture's rows, and let whatever else waits have its turn now and then: a signal to stop, above
 * all, which would find a file half-written.
 *
 * @param source - The picture.
 * @yields The same rows.
 */
export async function* unhurried(source: WrittenRows): AsyncGenerator<Uint8Array> {
  let turn = performance.now();
  for await (const row of source.rows()) {
    yield row;
    if (performance.now() - turn < patience) continue;
    await setImmediate();
    turn = performance.now();
  }
}
