/** Bits of a code at most. */
const longest = 15;

/**
 * Give symbols codes such that those that are seen often have few bits.
 *
 * @param counts - How often each symbol is seen, under 2^22 times; two of them or more are.
 * @param lengths - Filled: bits of each symbol's code, 1 to 15, or 0 of what is never seen.
 * @see Huffman 1952, A method for the construction of minimum-redundancy codes
 */
export function layCodeLengths(counts: Int32Array, lengths: Uint8Array): void {
  lengths.fill(0);
  // Where a code would be too long, what is seen seldom is taken to be seen oftener, until none is.
  for (let shift = 0; !layDepths(rank(counts, shift), lengths); shift += 2);
}

// A count above its symbol in one number, to be sorted as numbers are; of those that are seen.
const symbolBits = 9;

function rank(counts: Int32Array, shift: number): Int32Array {
  const ranks = new Int32Array(counts.length);
  let used = 0;
  for (let symbol = 0; symbol < counts.length; symbol++) {
    const count = counts[symbol]!;
    if (count > 0) ranks[used++] = ((((count - 1) >> shift) + 1) << symbolBits) | symbol;
  }
  return ranks.subarray(0, used).sort();
}

// How deep each hangs in the tree that joins the two lightest again and again; what is joined comes out in order as well.
// Says whether none hangs too deep.
function layDepths(leaves: Int32Array, lengths: Uint8Array): boolean {
  const count = leaves.length;
  const weights = new Int32Array(2 * count - 1);
  const parents = new Int32Array(2 * count - 1);
  for (let i = 0; i < count; i++) weights[i] = leaves[i]! >> symbolBits;
  let leaf = 0;
  let joined = count;
  for (let next = count; next < weights.length; next++) {
    for (let two = 0; two < 2; two++) {
      const isLeaf = leaf < count && (joined === next || weights[leaf]! <= weights[joined]!);
      const lightest = isLeaf ? leaf++ : joined++;
      weights[next] = weights[next]! + weights[lightest]!;
      parents[lightest] = next;
    }
  }
  const depths = new Uint8Array(weights.length);
  let most = 0;
  for (let i = weights.length - 2; i >= 0; i--) {
    const depth = depths[parents[i]!]! + 1;
    depths[i] = depth;
    if (depth > most) most = depth;
    if (i < count) lengths[leaves[i]! & ((1 << symbolBits) - 1)] = depth;
  }
  return most <= longest;
}

/**
 * Tell the codes that follow from their lengths.
 *
 * @param lengths - Bits of each symbol's code, 0 to 15.
 * @param codes - Filled: each code's first bit lowest, and below it, in four bits, its length.
 * @see RFC 1951, 3.2.2: use of Huffman coding in the deflate format
 */
export function layCodes(lengths: Uint8Array, codes: Int32Array): void {
  const starts = new Int32Array(longest + 2);
  for (const length of lengths) if (length > 0) starts[length + 1]!++;
  for (let length = 1; length <= longest; length++) {
    starts[length + 1] = 2 * (starts[length]! + starts[length + 1]!);
  }
  for (let symbol = 0; symbol < lengths.length; symbol++) {
    const length = lengths[symbol]!;
    codes[symbol] = length === 0 ? 0 : (reversed(starts[length]!++, length) << 4) | length;
  }
}

/**
 * Turn bits round.
 *
 * @param bits - They.
 * @param count - How many.
 * @returns The first of them last.
 */
export function reversed(bits: number, count: number): number {
  let out = 0;
  for (let i = 0; i < count; i++) out = (out << 1) | ((bits >>> i) & 1);
  return out;
}
