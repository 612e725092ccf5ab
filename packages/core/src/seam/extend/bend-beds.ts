import { wrapInto } from '../../numeric/wrap-into.js';
import type { Random } from './create-random.js';
import type { Beds } from './place-beds.js';

/** Says how far a bed joint of a tile, counted from the top, lies from straight at a column. */
export type Bend = (bed: number, x: number) => number;

/** Bed joints of a tile, straight so far. */
export interface StraightBeds {
  /** Those of the photos. */
  readonly like: readonly Beds[];
  /** How many; one more is the first again. */
  readonly courses: number;
  /** Columns of the tile. */
  readonly width: number;
  /** No bed strays further, in pixels. */
  readonly most: number;
}

// Of so many stretches the one goes on that begins nearest to where the last ended.
const draws = 6;

/**
 * Bend the bed joints of a tile as those of the photos bend: stretches of these, one after another.
 *
 * @param beds - The tile's, and the photos'.
 * @param random - Decides.
 * @returns How they bend; they go on around the tile's ends.
 */
export function bendBeds(beds: StraightBeds, random: Random): Bend {
  const { like, courses, width, most } = beds;
  const known = like.flatMap(straightened);
  const pitch = like.reduce((sum, one) => sum + one.pitch, 0) / Math.max(1, like.length);
  const count = Math.max(1, Math.round(width / Math.max(1, pitch)));
  const bends = Array.from({ length: courses }, () => drawBend(known, { count, most }, random));
  return (bed, x) => {
    const line = bends[bed % courses]!;
    const place = wrapInto((x / width) * count - 0.5, count);
    const left = Math.floor(place) % count;
    const right = (left + 1) % count;
    return line[left]! + (place - Math.floor(place)) * (line[right]! - line[left]!);
  };
}

// What is left of a photo's bed joints without their places, and without the slope of all of them: that is
// the photo's own.
function straightened({ lines }: Beds): Float64Array[] {
  const slopes = lines.map(slopeOf);
  const slope = slopes.reduce((sum, one) => sum + one / slopes.length, 0);
  return lines.map((line) => {
    const middle = (line.length - 1) / 2;
    const mean = line.reduce((sum, y) => sum + y / line.length, 0);
    return line.map((y, i) => y - mean - (i - middle) * slope);
  });
}

function slopeOf(line: Float64Array): number {
  const middle = (line.length - 1) / 2;
  let [slope, spread] = [0, 1e-9];
  for (const [i, y] of line.entries()) {
    slope += (i - middle) * y;
    spread += (i - middle) ** 2;
  }
  return slope / spread;
}

function drawBend(
  known: readonly Float64Array[],
  { count, most }: { readonly count: number; readonly most: number },
  random: Random,
): Float64Array {
  const out = new Float64Array(count);
  for (let at = 0; known.length > 0 && at < count;) {
    let next = drawStretch(known, random);
    for (let draw = 1; at > 0 && draw < draws; draw++) {
      const other = drawStretch(known, random);
      const last = out[at - 1]!;
      if (Math.abs(other[0]! - last) < Math.abs(next[0]! - last)) next = other;
    }
    out.set(next.subarray(0, count - at), at);
    at += next.length;
  }
  // Its ends meet.
  const rise = (out[count - 1]! - out[0]!) / count;
  const closed = out.map((bend, i) => bend - i * rise);
  const mean = closed.reduce((sum, bend) => sum + bend / count, 0);
  return closed.map((bend) => Math.min(most, Math.max(-most, bend - mean)));
}

function drawStretch(known: readonly Float64Array[], random: Random): Float64Array {
  const line = known[Math.floor(random() * known.length)]!;
  return line.subarray(Math.floor(random() * line.length));
}
