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
 * Hand on a picture's rows in runs. Between two of them whatever else waits has its turn: a signal to stop, above
 * all, which would find a file half-written. Within one nothing waits, for that takes longer than to copy a row.
 *
 * @param source - The picture.
 * @yields The same rows, so many after one another.
 */
export async function* unhurried(source: WrittenRows): AsyncGenerator<Iterable<Uint8Array>> {
  const rows = source.rows();
  if (!(Symbol.iterator in rows)) {
    let turn = performance.now();
    for await (const row of rows) {
      yield [row];
      if (performance.now() - turn < patience) continue;
      await setImmediate();
      turn = performance.now();
    }
    return;
  }
  const left = rows[Symbol.iterator]();
  let next = left.next();
  const run = function* (): Generator<Uint8Array> {
    const turn = performance.now();
    for (; next.done !== true; next = left.next()) {
      yield next.value;
      if (performance.now() - turn < patience) continue;
      next = left.next();
      return;
    }
  };
  try {
    while (next.done !== true) {
      yield run();
      await setImmediate();
    }
  } finally {
    left.return?.();
  }
}
