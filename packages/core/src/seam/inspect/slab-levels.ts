// Of all samples: mortar is often the lightest or the darkest fifth, and the same all over a wall.
const shares = [0.1, 0.25, 0.5, 0.75, 0.9] as const;
// From the least to the greatest that is told apart, in units of CIE 1976 colour difference.
const [least, greatest] = [-128, 128];
const bins = 512;
const fineness = bins / (greatest - least);

/**
 * Cut lines into slabs across them, and find what is usual in each: from its dark tenth to its light.
 *
 * @param plane - Lines, one after another, -128 to 128.
 * @param length - Samples a line.
 * @param count - Slabs, 1 or more.
 * @returns For each share of the samples, slab by slab, the value that so many lie below.
 */
export function slabLevels(plane: Float32Array, length: number, count: number): Float64Array[] {
  const levels = shares.map(() => new Float64Array(count));
  const tally = new Uint32Array(bins);
  for (let slab = 0; slab < count; slab++) {
    const from = Math.round((slab * length) / count);
    const to = Math.round(((slab + 1) * length) / count);
    tally.fill(0);
    let size = 0;
    for (let start = 0; start < plane.length; start += length) {
      tallyRun(plane, start + from, start + to, tally);
      size += to - from;
    }
    levels.forEach((level, which) => {
      level[slab] = least + placeIn(tally, (shares[which] ?? 0.5) * size) / fineness;
    });
  }
  return levels;
}

function tallyRun(plane: Float32Array, from: number, to: number, tally: Uint32Array): void {
  for (let at = from; at < to; at++) {
    const bin = ((plane[at]! - least) * fineness) | 0;
    const inside = bin < 0 ? 0 : bin < bins ? bin : bins - 1;
    tally[inside] = tally[inside]! + 1;
  }
}

// Bins below which so many lie, the last one in part.
function placeIn(tally: Uint32Array, wanted: number): number {
  let below = 0;
  for (let bin = 0; bin < tally.length; bin++) {
    const here = tally[bin]!;
    if (below + here >= wanted && here > 0) return bin + (wanted - below) / here;
    below += here;
  }
  return tally.length;
}
