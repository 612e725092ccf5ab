/**
 * Add what lies right of an edge to a row of pixels, exactly: each gets the share of its area. Kept as
 * differences, so that an edge costs the pixels that it runs through and no more.
 *
 * @param differences - Two longer than the row; what a pixel is covered by is the sum up to its own.
 * @param from - Where the edge is at one end, in pixels from the row's left, 0 to its length.
 * @param to - Where it is at the other.
 * @param height - Of the edge, as a share of the row's; below 0 to take away.
 */
export function addEdge(differences: Float64Array, from: number, to: number, height: number): void {
  const left = Math.min(from, to);
  const right = Math.max(from, to);
  const first = Math.floor(left);
  const last = Math.floor(right);
  const middle = (left + right) / 2;
  if (first === last) {
    differences[first]! += height * (first + 1 - middle);
    differences[first + 1]! += height * (middle - first);
    return;
  }
  // The mean over the edge of how far a place lies right of it grows as a square between its ends.
  const bend = 1 / (2 * (right - left));
  let reached = 0;
  let before = 0;
  for (let i = first; i <= last; i++) {
    const end = i + 1;
    const reach = end <= right ? (end - left) * (end - left) * bend : end - middle;
    const share = reach - reached;
    differences[i]! += height * (share - before);
    before = share;
    reached = reach;
  }
  differences[last + 1]! += height * (1 - before);
}
