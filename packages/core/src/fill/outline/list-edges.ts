/** The slanting and upright edges of loops, from top to bottom. */
export interface Edges {
  /** Of each one's upper end. */
  readonly top: Float64Array;
  /** Of each one's lower end. */
  readonly bottom: Float64Array;
  /** Where it is at its upper end. */
  readonly start: Float64Array;
  /** How far it goes right for each pixel down. */
  readonly slope: Float64Array;
  /** 1 where the loop runs down it, -1 where up. */
  readonly winding: Int8Array;
}

/**
 * List what bounds loops from the left and right.
 *
 * @param loops - Of points x, y, x, y… in pixels.
 * @returns Their edges, the highest first; level ones bound nothing.
 */
export function listEdges(loops: readonly Float64Array[]): Edges {
  const found: { top: number; bottom: number; start: number; slope: number; winding: number }[] =
    [];
  for (const loop of loops) {
    let [x, y] = [loop.at(-2) ?? 0, loop.at(-1) ?? 0];
    for (let i = 0; i < loop.length; i += 2) {
      const [nextX, nextY] = [loop[i]!, loop[i + 1]!];
      const slope = (nextX - x) / (nextY - y);
      if (nextY > y) found.push({ top: y, bottom: nextY, start: x, slope, winding: 1 });
      if (nextY < y) found.push({ top: nextY, bottom: y, start: nextX, slope, winding: -1 });
      [x, y] = [nextX, nextY];
    }
  }
  found.sort((a, b) => a.top - b.top);
  return {
    top: Float64Array.from(found, ({ top }) => top),
    bottom: Float64Array.from(found, ({ bottom }) => bottom),
    start: Float64Array.from(found, ({ start }) => start),
    slope: Float64Array.from(found, ({ slope }) => slope),
    winding: Int8Array.from(found, ({ winding }) => winding),
  };
}
