import { createRaster, extendTile, type Raster } from '@gaugerod/core';
import { drawTexture, sampleTextures } from '@gaugerod/fixtures';

/** How often what catches the eye comes again in a tile of patches. */
export interface MarkTrial {
  /** What was grown. */
  readonly texture: string;
  /** Mark by mark: its share of the tile over its share of the photo. */
  readonly shares: readonly number[];
  /** How near two copies of one mark come, over the photo's side; none where there are not two. */
  readonly nearest: readonly number[];
}

const side = 288;
const times = 4;
// One mark of each colour, so that its copies are known by it.
const colours = [
  [0.75, 0.1, 0.08],
  [0.06, 0.5, 0.1],
  [0.08, 0.14, 0.75],
] as const;
// So much of a mark is its own colour.
const own = 0.6;
// Parts of a mark smaller than this share are none.
const leastPart = 0.25;

/**
 * Grow textures with three marks of their own each, four times each way, and count the marks.
 *
 * @param seed - To count from.
 * @param count - How many textures.
 * @returns One trial each.
 */
export function growMarks(seed: number, count: number): readonly MarkTrial[] {
  return sampleTextures(seed, count).map(({ params }, index) => {
    const { raster, truth } = drawTexture({ ...params, width: side, height: side });
    const marks = colours.map((_, i) => placeMark(seed + index, i));
    const photo = withMarks(raster, marks);
    const size = times * side;
    const repeats = { x: null, y: null };
    const made = extendTile([{ raster: photo, lattice: null }], {
      width: size,
      height: size,
      repeats,
    });
    if (!made.ok) throw new Error(made.message);
    const judged = colours.flatMap((_, i) =>
      judgeMark({ raster, photo, tile: made.value.raster }, i),
    );
    return {
      texture: truth.texture,
      shares: judged.map(({ share }) => share),
      nearest: judged.flatMap(({ nearest }) => (nearest === null ? [] : [nearest])),
    };
  });
}

interface Mark {
  readonly x: number;
  readonly y: number;
  readonly across: number;
  readonly down: number;
}

// A blot a tenth of the picture wide, in one of three parts of it.
function placeMark(seed: number, which: number): Mark {
  const chance = (salt: number): number =>
    ((seed * 7919 + which * 104_729 + salt * 15_485_863) % 997) / 997;
  return {
    x: side * (0.12 + 0.76 * chance(1)),
    y: side * ((which + 0.25 + 0.5 * chance(2)) / colours.length),
    across: side * (0.02 + 0.035 * chance(3)),
    down: side * (0.02 + 0.035 * chance(4)),
  };
}

function withMarks(raster: Raster, marks: readonly Mark[]): Raster {
  const { width, height } = raster;
  const out = createRaster(width, height);
  for (const [channel, plane] of raster.planes.entries()) {
    const to = out.planes[channel]!;
    to.set(plane);
    for (const [which, { x, y, across, down }] of marks.entries()) {
      for (let at = 0; at < to.length; at++) {
        const off = Math.hypot(((at % width) - x) / across, (Math.floor(at / width) - y) / down);
        if (off < 1) to[at] = (1 - own) * to[at]! + own * colours[which]![channel]!;
      }
    }
  }
  return out;
}

interface Seen {
  // Without marks, with them, and what was grown of it.
  readonly raster: Raster;
  readonly photo: Raster;
  readonly tile: Raster;
}

function judgeMark(
  { raster, photo, tile }: Seen,
  which: number,
): { readonly share: number; readonly nearest: number | null }[] {
  const least = axisOf(raster, which).reduce((a, b) => Math.max(a, b), -1) + 0.02;
  const inPhoto = axisOf(photo, which).filter((value) => value > least).length;
  // A mark that is not told from its ground is none.
  if (inPhoto < 0.0008 * side * side) return [];
  const seen = Uint8Array.from(axisOf(tile, which), (value) => (value > least ? 1 : 0));
  const inTile = seen.reduce((sum, one) => sum + one, 0);
  const places = findParts(seen, tile, leastPart * inPhoto);
  return [
    { share: inTile / seen.length / (inPhoto / (side * side)), nearest: nearestOf(places, tile) },
  ];
}

// How much more there is of one colour than of the others.
function axisOf({ planes }: Raster, which: number): Float32Array {
  const roots = planes.map((plane) => plane.map((light) => Math.sqrt(Math.max(0, light))));
  const [one, two] = [roots[(which + 1) % 3]!, roots[(which + 2) % 3]!];
  return roots[which]!.map((value, i) => value - (one[i]! + two[i]!) / 2);
}

function findParts(seen: Uint8Array, tile: Raster, least: number): { x: number; y: number }[] {
  const { width, height } = tile;
  const left = seen.slice();
  const places: { x: number; y: number }[] = [];
  for (let start = 0; start < left.length; start++) {
    if (left[start] === 0) continue;
    const stack = [start];
    left[start] = 0;
    let [count, x, y] = [0, 0, 0];
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      count++;
      x += at % width;
      y += Math.floor(at / width);
      for (let v = -2; v <= 2; v++) {
        for (let u = -2; u <= 2; u++) {
          const [column, row] = [(at % width) + u, Math.floor(at / width) + v];
          if (column < 0 || row < 0 || column >= width || row >= height) continue;
          const next = row * width + column;
          if (left[next] === 1) {
            left[next] = 0;
            stack.push(next);
          }
        }
      }
    }
    if (count >= least) places.push({ x: x / count, y: y / count });
  }
  return places;
}

function nearestOf(
  places: readonly { readonly x: number; readonly y: number }[],
  { width, height }: Raster,
): number | null {
  let nearest = Infinity;
  for (const [i, one] of places.entries()) {
    for (const other of places.slice(0, i)) {
      const x = Math.abs(one.x - other.x);
      const y = Math.abs(one.y - other.y);
      nearest = Math.min(nearest, Math.hypot(Math.min(x, width - x), Math.min(y, height - y)));
    }
  }
  return Number.isFinite(nearest) ? nearest / side : null;
}
