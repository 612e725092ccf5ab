/**
 * Await work in the order in which it was begun, some of it ahead.
 *
 * @param begun - Begins the next piece of work whenever it is asked; may throw.
 * @param ahead - Pieces that may be under way, 1 or more: more take more memory.
 * @yields What each came to.
 */
export async function* inOrder<Value>(
  begun: Iterable<Promise<Value>>,
  ahead: number,
): AsyncGenerator<Value> {
  const waiting: Promise<Value>[] = [];
  try {
    for (const work of begun) {
      waiting.push(work);
      const first = waiting.length === ahead ? waiting.shift() : undefined;
      if (first !== undefined) yield await first;
    }
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) yield await next;
  } finally {
    // Nothing is left to fail unheard.
    await Promise.allSettled(waiting);
  }
}
