import { shorterWay } from '../../numeric/shorter-way.js';
import type { Canvas } from './canvas.js';
import type { Random } from './create-random.js';
import type { PatchPlace } from './place-patch.js';
import { isSound } from './see-sound.js';
import { followCourse, type PatchOrigin, type PatchSource } from './take-patch.js';
import { type LaidPiece, type MarkTally, weighMarks } from './tally-marks.js';
import { weighPatch } from './weigh-patch.js';

/** A place for a patch. */
export interface Spot {
  /** Where it lies, and how it is cut. */
  readonly place: PatchPlace;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Rows of the tile in its course, or null where it has none. */
  readonly course: number | null;
  /** How many of its own rows lie above its course's bed. */
  readonly before: number;
}

/** A patch that lies in its place. */
export interface LaidPatch extends PatchOrigin {
  /** Column of its left edge in the tile. */
  readonly toX: number;
  /** Row of its top edge. */
  readonly toY: number;
}

/** What a patch is chosen by. */
export interface Choosing {
  /** The tile. */
  readonly canvas: Canvas;
  /** The photos. */
  readonly sources: readonly PatchSource[];
  /** What lies in the tile. */
  readonly laid: readonly LaidPatch[];
  /** What catches the eye in it. */
  readonly tally: MarkTally;
  /** The place to fill. */
  readonly spot: Spot;
}

// Places of the photos that are tried for each patch, and draws for each until what is on it
// was seen seldom.
const tries = 48;
const draws = 4;
const seldom = 1;
const mostDraws = 60;
// Pixels that the one chosen is moved by, to fit better, and which way.
const shifts = [8, 4, 2, 1] as const;
const sides = [[1, 0] as const, [-1, 0] as const, [0, 1] as const, [0, -1] as const];
// Of the best that were tried, one within this of the best is taken by chance.
const tolerance = 0.3;
// What it costs, in squared roots of light, that the same piece lies near, or the same mark has come as
// often as it may, beside making all that is unlike count double; where a piece lies beside its neighbour
// from the photo, so much that nothing else is worse.
const again = 0.05;
const marked = 0.02;
const verbatim = 1;

/**
 * Choose which part of the photos goes to a place: one that goes with what lies around it, does not lie
 * near by already, and has nothing on it that was seen too often.
 *
 * @param choosing - The place, and what there is.
 * @param random - Decides.
 * @returns The part.
 */
export function chooseOrigin(choosing: Choosing, random: Random): PatchOrigin {
  const near = { ...choosing, laid: choosing.laid.filter((other) => isNear(choosing, other)) };
  const tried: Tried[] = [];
  let least = Infinity;
  for (let i = 0; i < tries; i++) {
    const origin = freshOrigin(choosing, random);
    const cost = costOf(near, origin, (1 + tolerance) * least);
    tried.push({ origin, cost });
    least = Math.min(least, cost);
  }
  tried.sort((a, b) => a.cost - b.cost);
  const good = tried.filter(({ cost }) => cost <= (1 + tolerance) * tried[0]!.cost);
  return moved(near, good[Math.floor(random() * good.length)]!);
}

/**
 * Say what of a patch will be seen: as far as the middle of the bands in which it is cut.
 *
 * @param origin - Which part of which photo it is.
 * @param spot - Where it goes.
 * @returns The part of it, and where in the tile that lies.
 */
export function pieceOf(origin: PatchOrigin, spot: Spot): LaidPiece {
  const { across, down, x, y } = spot.place;
  const [right, below] = [across >> 1, down >> 1];
  return {
    origin: { ...origin, x: origin.x + right, y: origin.y + below },
    to: { x: x + right, y: y + below },
    width: spot.width - 2 * right,
    height: spot.height - 2 * below,
  };
}

interface Tried {
  readonly origin: PatchOrigin;
  readonly cost: number;
}

// Step by smaller step to where it fits best, as far as that is not where its neighbour is of.
function moved(choosing: Choosing, tried: Tried): PatchOrigin {
  const { sources, spot } = choosing;
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
      const price = costOf(choosing, other, cost);
      if (price < cost) [origin, cost] = [other, price];
    }
  }
  return origin;
}

// Of some draws the one with the least on it that was seen.
function freshOrigin({ sources, tally, spot }: Choosing, random: Random): PatchOrigin {
  let origin = soundOrigin(sources, spot, random);
  let least = weighMarks(tally, pieceOf(origin, spot));
  for (let draw = 1; draw < draws && least > seldom; draw++) {
    const other = soundOrigin(sources, spot, random);
    const seen = weighMarks(tally, pieceOf(other, spot));
    if (seen < least) [origin, least] = [other, seen];
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

// As likely beyond an end as within, and brought back to it: else what lies near it would seldom come.
function drawStart(length: number, size: number, random: Random): number {
  const most = Math.max(0, length - size);
  return Math.min(most, Math.max(0, Math.floor(random() * (most + size) - size / 2)));
}

function anyOrigin(sources: readonly PatchSource[], spot: Spot, random: Random): PatchOrigin {
  const number = Math.floor(random() * sources.length);
  const source = sources[number]!;
  const x = drawStart(source.width, spot.width, random);
  if (source.courses === null || spot.course === null) {
    const y = drawStart(source.height, spot.height, random);
    return { source: number, x, y, step: 1 };
  }
  const { beds } = source.courses;
  const course = Math.floor(random() * (beds.count - 1));
  const { width, before, course: rows } = spot;
  return { source: number, x, course, ...followCourse(beds, { course, x, width, rows, before }) };
}

// How badly a part of a photo goes where it would, and how much of it was seen; past the most it does not
// matter.
function costOf(choosing: Choosing, origin: PatchOrigin, most: number): number {
  const { canvas, sources, spot, tally } = choosing;
  const seen = weighMarks(tally, pieceOf(origin, spot));
  const repeated = repetition(choosing, origin) + marked * seen;
  const enough = (most - repeated) / (1 + seen);
  const unlike = weighPatch(canvas, sources[origin.source]!, { ...spot, origin, most: enough });
  return (unlike + 1e-5) * (1 + seen) + repeated;
}

// The run that follows in the photo would bring the photo back; so would one that lies near by.
function repetition({ canvas, laid, spot }: Choosing, origin: PatchOrigin): number {
  const { place, width, height } = spot;
  let cost = 0;
  for (const other of laid) {
    if (other.source !== origin.source) continue;
    const x = shorterWay(place.x - other.toX, canvas.width);
    const y = shorterWay(place.y - other.toY, canvas.height);
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

function isNear({ canvas, spot }: Choosing, other: LaidPatch): boolean {
  const { place, width, height } = spot;
  return (
    Math.abs(shorterWay(place.x - other.toX, canvas.width)) <= 2.5 * width &&
    Math.abs(shorterWay(place.y - other.toY, canvas.height)) <= 2.5 * height
  );
}
