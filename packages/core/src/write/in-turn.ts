/**
 * Hand on bytes that are there already, as an encoder hands on those it makes.
 *
 * @param pieces - A file's bytes, in order.
 * @yields The same.
 */
export async function* inTurn(pieces: Iterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for (const piece of pieces) yield await Promise.resolve(piece);
}
