import { createRaster, type Raster } from '../../raster/raster.js';
import { type Canvas, createCanvas } from './canvas.js';
import type { Random } from './create-random.js';
import { placePatch, type PatchPlace } from './place-patch.js';
import { followCourse, type PatchOrigin, type PatchSource, takePatch } from './take-patch.js';
import { isSound } from './see-sound.js';
import { weighPatch } from './weigh-patch.js';

/** A tile that is to be sewn of patches. */
export interface QuiltWish {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Courses in it, or null for a texture without. */
  readonly courses: number | null;
  /** A patch: columns and, without courses, rows, about. */
  readonly patch: { readonly width: number; readonly height: number };
  /** A joint's width in pixels; 0 without courses. */
  readonly joint: number;
}

// Places of the photos that are tried for each patch.
const tries = 64;
const runTries = 48;
const mostDraws = 60;
// Pixels that the one chosen is moved by, to fit better, and which way.
const shifts = [8, 4, 2, 1] as const;
const sides = [[1, 0] as const, [-1, 0] as const, [0, 1] as const, [0, -1] as const];
// Share of a patch in which it is cut into its neighbour, each side of their border.
const overlap = 0.16;
// Of the best that were tried, one within this of the best is taken by chance.
const tolerance = 0.3;
// What it costs, in squared roots of light, that the same piece lies near; where it lies beside its
// neighbour from the photo, so much that nothing else is worse.
const again = 0.05;
const verbatim = 1;

/**
 * Sew a tile of patches, each cut into those around it: along its courses where it has any, row by
 * row. It goes on around its edges.
 *
 * @param sources - Photos of one scale, light and colour.
 * @param wish - How large, and of how large patches.
 * @param random - Decides.
 * @returns The tile; with courses, the middle of a bed joint is its top edge.
 */
export function quiltTile(
  sources: readonly PatchSource[],
  wish: QuiltWish,
  random: Random,
): Raster {
  const { width, height } = wish;
  const canvas = createCanvas(width, height);
  const rows = wish.courses ?? Math.max(2, Math.round(height / wish.patch.height));
  const columns = Math.max(2, Math.round(width / wish.patch.width));
  const laid: Laid[] = [];
  for (let row = 0; row < rows; row++) {
    // As bricks do, or borders of patches would make a grid.
    const start = Math.floor(random() * width);
    for (let column = 0; column < columns; column++) {
      const spot = spotOf(wish, { row, rows, column, columns, start });
      const origin = chooseOrigin({ canvas, sources, laid, spot }, random);
      laid.push({ ...origin, toX: spot.place.x, toY: spot.place.y });
      placePatch(canvas, takePatch(sources[origin.source]!, origin, spot), spot.place);
    }
  }
  return toRaster(canvas);
}

interface Laid extends PatchOrigin {
  readonly toX: number;
  readonly toY: number;
}

interface Spot {
  readonly place: PatchPlace;
  readonly width: number;
  readonly height: number;
  // Rows of the tile in its course, where it has one, and how many of its own lie above the bed.
  readonly course: number | null;
  readonly before: number;
}

interface Grid {
  readonly row: number;
  readonly rows: number;
  readonly column: number;
  readonly columns: number;
  readonly start: number;
}

function spotOf(wish: QuiltWish, { row, rows, column, columns, start }: Grid): Spot {
  const { width, height, courses, joint } = wish;
  const left = Math.round((column * width) / columns);
  const right = Math.round(((column + 1) * width) / columns);
  const exact = (row * height) / rows;
  const top = Math.round(exact);
  const bottom = Math.round(((row + 1) * height) / rows);
  const across = Math.max(2, Math.round(overlap * (courses === null ? 1 : 1.6) * (right - left)));
  const down =
    courses === null ? Math.max(2, Math.round(overlap * (bottom - top))) : nearBed(joint);
  return {
    place: {
      x: start + left - across,
      y: top - down,
      across,
      down,
      meets: {
        left: column > 0,
        right: column + 1 === columns,
        top: row > 0,
        bottom: row + 1 === rows,
      },
    },
    width: right - left + 2 * across,
    height: bottom - top + 2 * down,
    course: courses === null ? null : height / rows,
    before: exact - (top - down),
  };
}

function nearBed(joint: number): number {
  return Math.max(2, Math.round(0.6 * joint));
}

interface Choosing {
  readonly canvas: Canvas;
  readonly sources: readonly PatchSource[];
  readonly laid: readonly Laid[];
  readonly spot: Spot;
}

function chooseOrigin(choosing: Choosing, random: Random): PatchOrigin {
  const { canvas, sources, spot } = choosing;
  const near = { ...choosing, laid: choosing.laid.filter((other) => isNear(choosing, other)) };
  const tried: Tried[] = [];
  let least = Infinity;
  for (let i = 0; i < (spot.course === null ? tries : runTries); i++) {
    const origin = soundOrigin(sources, spot, random);
    const repeated = repetition(near, origin);
    const most = (1 + tolerance) * least - repeated;
    const cost = weighPatch(canvas, sources[origin.source]!, { ...spot, origin, most });
    tried.push({ origin, cost: cost + 1e-5 + repeated });
    least = Math.min(least, tried[i]!.cost);
  }
  tried.sort((a, b) => a.cost - b.cost);
  const good = tried.filter(({ cost }) => cost <= (1 + tolerance) * tried[0]!.cost);
  return moved(near, good[Math.floor(random() * good.length)]!);
}

interface Tried {
  readonly origin: PatchOrigin;
  readonly cost: number;
}

// Step by smaller step to where it fits best, as far as that is not where its neighbour is of.
function moved(choosing: Choosing, tried: Tried): PatchOrigin {
  const { canvas, sources, spot } = choosing;
  const source = sources[tried.origin.source]!;
  let { origin, cost } = tried;
  for (const step of shifts) {
    for (const [right, down] of sides) {
      const x = origin.x + right * step;
      const y = origin.y + down * step;
      // Along a course there is but one way.
      if ((spot.course !== null && down !== 0) || x < 0 || x + spot.width > source.width) continue;
      if (spot.course === null && (y < 0 || y + spot.height > source.height)) continue;
      const other = { ...origin, x, y };
      const repeated = repetition(choosing, other);
      const trial = { ...spot, origin: other, most: cost - repeated };
      const price = weighPatch(canvas, source, trial) + 1e-5 + repeated;
      if (price < cost) [origin, cost] = [other, price];
    }
  }
  return origin;
}

// A run of what is no course is drawn again, as long as there is hope of another.
function soundOrigin(sources: readonly PatchSource[], spot: Spot, random: Random): PatchOrigin {
  let origin = anyOrigin(sources, spot, random);
  for (let again = 0; again < mostDraws; again++) {
    const sound = sources[origin.source]!.courses?.sound;
    const run = { left: origin.x, right: origin.x + spot.width };
    if (sound === undefined || isSound(sound, origin.course ?? 0, run)) break;
    origin = anyOrigin(sources, spot, random);
  }
  return origin;
}

function anyOrigin(sources: readonly PatchSource[], spot: Spot, random: Random): PatchOrigin {
  const number = Math.floor(random() * sources.length);
  const source = sources[number]!;
  const x = Math.floor(random() * Math.max(1, source.width - spot.width + 1));
  if (source.courses === null || spot.course === null) {
    const y = Math.floor(random() * Math.max(1, source.height - spot.height + 1));
    return { source: number, x, y, step: 1 };
  }
  const { beds } = source.courses;
  const course = Math.floor(random() * (beds.count - 1));
  const { width, before, course: rows } = spot;
  return { source: number, x, course, ...followCourse(beds, { course, x, width, rows, before }) };
}

// The run that follows in the photo would bring the photo back; so would one that lies near by.
function repetition({ canvas, laid, spot }: Choosing, origin: PatchOrigin): number {
  const { place, width, height } = spot;
  let cost = 0;
  for (const other of laid) {
    if (other.source !== origin.source) continue;
    const x = around(place.x - other.toX, canvas.width);
    const y = around(place.y - other.toY, canvas.height);
    const offX = x - (origin.x - other.x);
    const offY = y - (origin.y - other.y);
    // Laid as in the photo.
    if (Math.abs(offX) < width / 6 && Math.abs(offY) < height / 3) cost += verbatim;
    // The same piece again.
    const share =
      Math.max(0, 1 - Math.abs(origin.x - other.x) / width) *
      Math.max(0, 1 - Math.abs(origin.y - other.y) / height);
    if (share > 0.3) cost += again * share;
  }
  return cost;
}

function isNear({ canvas, spot }: Choosing, other: Laid): boolean {
  const { place, width, height } = spot;
  return (
    Math.abs(around(place.x - other.toX, canvas.width)) <= 2.5 * width &&
    Math.abs(around(place.y - other.toY, canvas.height)) <= 2.5 * height
  );
}

function around(step: number, length: number): number {
  return step - Math.round(step / length) * length;
}

function toRaster({ width, height, planes }: Canvas): Raster {
  const out = createRaster(width, height);
  for (const [channel, plane] of planes.entries()) {
    const to = out.planes[channel]!;
    for (let i = 0; i < to.length; i++) {
      const root = plane[i]!;
      to[i] = root > 0 ? root * root : 0;
    }
  }
  return out;
}
