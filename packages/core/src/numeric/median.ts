/**
 * Find the middle of some numbers.
 *
 * @param values - Any number of them, in any order; left as they are.
 * @returns The middle one, the mean of the middle two, or 0 of none.
 */
export function median(values: Float64Array): number {
  const { length } = values;
  if (length === 0) return 0;
  const half = length >> 1;
  const ordered = values.slice();
  const middle = select(ordered, half);
  if (length % 2 === 1) return middle;
  // All that is left of the middle is no greater.
  let below = -Infinity;
  for (let i = 0; i < half; i++) below = Math.max(below, ordered[i]!);
  return (below + middle) / 2;
}

// Put the number that sorting would put at a place there, smaller ones before it and greater ones
// after: C. A. R. Hoare, Algorithm 65: Find, Communications of the ACM 4 (1961).
function select(values: Float64Array, place: number): number {
  let from = 0;
  let to = values.length - 1;
  while (from < to) {
    const pivot = values[place]!;
    let i = from;
    let j = to;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (pivot < values[j]!) j--;
      if (i > j) break;
      const swapped = values[i]!;
      values[i++] = values[j]!;
      values[j--] = swapped;
    }
    if (j < place) from = i;
    if (place < i) to = j;
  }
  return values[place]!;
}
