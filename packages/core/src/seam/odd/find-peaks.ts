/**
 * Find where a plane that goes on around its edges is higher than all within a box, the highest first.
 *
 * @param values - Row by row.
 * @param width - Columns.
 * @param box - How far apart peaks lie at least.
 * @param box.columns - Across.
 * @param box.rows - Down.
 * @returns Where in the plane; only what is above 0.
 */
export function findPeaks(
  values: Float32Array,
  width: number,
  box: { readonly columns: number; readonly rows: number },
): number[] {
  const height = values.length / width;
  const places: number[] = [];
  for (let y = 0, at = 0; y < height; y++) {
    const above = (y === 0 ? height - 1 : y - 1) * width;
    const below = (y === height - 1 ? 0 : y + 1) * width;
    for (let x = 0; x < width; x++, at++) {
      const here = values[at]!;
      if (here <= 0 || here < values[above + x]! || here < values[below + x]!) continue;
      const left = values[x === 0 ? at + width - 1 : at - 1]!;
      const right = values[x === width - 1 ? at + 1 - width : at + 1]!;
      if (here >= left && here >= right) places.push(at);
    }
  }
  places.sort((a, b) => values[b]! - values[a]!);
  const taken = new Uint8Array(values.length);
  return places.filter((at) => {
    if (taken[at] === 1) return false;
    const [x, y] = [at % width, Math.floor(at / width)];
    for (let v = -box.rows; v <= box.rows; v++) {
      const row = ((y + v + height) % height) * width;
      for (let u = -box.columns; u <= box.columns; u++) taken[row + ((x + u + width) % width)] = 1;
    }
    return true;
  });
}
