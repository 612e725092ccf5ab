/** What becomes of colours: known at the corners of small cubes, and between them in a straight line. */
export interface ColourTable {
  /** Corners along each of red, green and blue, from 0 to 1 in even steps. */
  readonly size: number;
  /** Red, green and blue, 0 to 1 as encoded in sRGB, at each corner: blue goes fastest, red slowest. */
  readonly values: Float32Array;
  /** What each of red, green and blue becomes before it is looked up, from 0 to 1 in even steps; as it is without. */
  readonly shaper?: Float32Array;
}

/**
 * Make a table from what becomes of each of its corners.
 *
 * @param size - Corners along each side, 2 or more.
 * @param change - Gives red, green and blue for red, green and blue, all 0 to 1 as encoded in sRGB.
 * @returns All corners, changed.
 */
export function makeTable(size: number, change: (colour: Float32Array) => void): ColourTable {
  const values = new Float32Array(3 * size ** 3);
  const colour = new Float32Array(3);
  for (let i = 0; i < size ** 3; i++) {
    colour[0] = Math.floor(i / size ** 2) / (size - 1);
    colour[1] = (Math.floor(i / size) % size) / (size - 1);
    colour[2] = (i % size) / (size - 1);
    change(colour);
    values.set(colour, 3 * i);
  }
  return { size, values };
}

/**
 * Change colours by a table: each cube is cut into six tetrahedra along its diagonal from black to white, so that greys
 * are interpolated from greys alone, and nothing bends but where one meets the next. What bends more than its corners
 * follow is left to its shaper.
 *
 * @param table - What becomes of colours.
 * @param colours - RGBRGB… as encoded in sRGB, clipped to 0 to 1; changed in place.
 * @see J. M. Kasson, S. I. Nin, W. Plouffe, J. L. Hafner 1995, Performing color space conversions with
 *   three-dimensional linear interpolation, J. Electronic Imaging 4: tetrahedra
 */
export function changeColours(table: ColourTable, colours: Float32Array): void {
  const { size, values } = table;
  const last = size - 1;
  if (table.shaper !== undefined) shape(table.shaper, colours);
  const [perRed, perGreen, perBlue] = [3 * size * size, 3 * size, 3];
  for (let i = 0; i < colours.length; i += 3) {
    const r = last * Math.min(1, Math.max(0, colours[i]!));
    const g = last * Math.min(1, Math.max(0, colours[i + 1]!));
    const b = last * Math.min(1, Math.max(0, colours[i + 2]!));
    const [r0, g0, b0] = [
      Math.min(last - 1, r | 0),
      Math.min(last - 1, g | 0),
      Math.min(last - 1, b | 0),
    ];
    const [fr, fg, fb] = [r - r0, g - g0, b - b0];
    const base = r0 * perRed + g0 * perGreen + b0 * perBlue;
    // From black to white by the channel that goes furthest, then the next, then the last.
    let [first, second] = [perRed, perGreen];
    let [far, middle, near] = [fr, fg, fb];
    if (fr >= fg) {
      if (fg < fb) {
        [middle, near] = [fb, fg];
        second = perBlue;
        if (fr < fb) {
          [far, middle] = [fb, fr];
          [first, second] = [perBlue, perRed];
        }
      }
    } else {
      [far, middle] = [fg, fr];
      [first, second] = [perGreen, perRed];
      if (fr < fb) {
        [middle, near] = [fb, fr];
        second = perBlue;
        if (fg < fb) {
          [far, middle] = [fb, fg];
          [first, second] = [perBlue, perGreen];
        }
      }
    }
    const [w0, w1, w2] = [1 - far, far - middle, middle - near];
    const one = base + first;
    const two = one + second;
    const end = base + perRed + perGreen + perBlue;
    for (let channel = 0; channel < 3; channel++) {
      colours[i + channel] =
        w0 * values[base + channel]! +
        w1 * values[one + channel]! +
        w2 * values[two + channel]! +
        near * values[end + channel]!;
    }
  }
}

function shape(shaper: Float32Array, colours: Float32Array): void {
  const last = shaper.length - 1;
  for (let i = 0; i < colours.length; i++) {
    const place = last * Math.min(1, Math.max(0, colours[i]!));
    const below = Math.min(last - 1, place | 0);
    const [low, high] = [shaper[below]!, shaper[below + 1]!];
    colours[i] = low + (place - below) * (high - low);
  }
}
