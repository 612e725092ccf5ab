/**
 * Do work on one thing after another and await it in that order, some of it ahead.
 *
 * @param things - What is worked on; may throw.
 * @param begin - Begins the work on one.
 * @param ahead - Pieces that may be under way, 1 or more: more take more memory.
 * @yields What each came to.
 */
export async function* inOrder<Thing, Value>(
  things: AsyncIterable<Thing> | Iterable<Thing>,
  begin: (thing: Thing) => Promise<Value>,
  ahead: number,
): AsyncGenerator<Value> {
  const waiting: Promise<Value>[] = [];
  try {
    for await (const thing of things) {
      const work = begin(thing);
      // What fails is heard when its turn comes.
      work.catch(() => undefined);
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
