import type { FacedLoop } from './face-loops.js';

// Edges that are looked from: of more, every so manieth.
const mostLooked = 600;
// How far another edge must face one, as a cosine: what merely bends away beside it does not.
const facing = -0.5;

/**
 * Find how narrow what loops bound is where it is narrowest: from an edge straight across it to one that looks
 * the other way.
 *
 * @param loops - What they bound on their right.
 * @returns In their unit; Infinity where nothing faces anything.
 */
export function narrowest(loops: readonly FacedLoop[]): number {
  const edges = loops.flatMap(({ points }) =>
    points.map((from, i) => ({ from, to: points[(i + 1) % points.length] ?? from })),
  );
  const step = Math.ceil(edges.length / mostLooked);
  let least = Infinity;
  for (let i = 0; i < edges.length; i += step) {
    const edge = edges[i];
    if (edge === undefined) continue;
    const { out } = edge.from;
    const [x, y] = [(edge.from.x + edge.to.x) / 2, (edge.from.y + edge.to.y) / 2];
    for (const { from, to } of edges) {
      if (from.out.x * out.x + from.out.y * out.y > facing) continue;
      const [dx, dy] = [to.x - from.x, to.y - from.y];
      const across = out.x * dy - out.y * dx;
      // From the edge inwards: x - t out, where it meets the other.
      const t = ((x - from.x) * dy - (y - from.y) * dx) / across;
      const along = ((x - from.x) * out.y - (y - from.y) * out.x) / -across;
      if (t > 1e-9 && along >= 0 && along <= 1) least = Math.min(least, t);
    }
  }
  return least;
}
