import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import { keepMean } from '../../raster/keep-mean.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { JudgedJoin } from './choose-join.js';
import { choosePeriods, type PeriodChoice } from './choose-periods.js';
import { inspectAxis } from '../inspect/inspect-axis.js';
import { holdsWhole } from './holds-whole.js';
import { lookSmaller } from '../inspect/look-smaller.js';
import type { JoinMethod } from './join-overlap.js';
import { matchRepeat, type RepeatMatch } from './match-repeat.js';
import { healBricks, type HealedBricks, type JoinedTile } from './heal-bricks.js';
import type { JoinedAxis } from './origin-of.js';
import { createLook } from './see-wall.js';
import { warnOfOther } from './warn-of-other.js';
import { mendAxis } from './mend-axis.js';
import { nothingToMend } from './nothing-to-mend.js';
import type { Joints } from './see-joints.js';

/**
 * How a tile's ends were joined; `none` where they met already or there was nothing to join them in,
 * `mixed` where x and y differ.
 */
export type MendMethod = JoinMethod | 'none' | 'mixed';

/** How a picture is to be mended. */
export interface MendOptions {
  /** One bond repeat in pixels along each axis, seldom whole; null where nothing repeats. */
  readonly repeat: PerAxis<number | null>;
  /**
   * The tile's size in pixels along each axis, whole, where a plan says it; found here from
   * `repeat` and `keep` where null or not told.
   */
  readonly period?: PerAxis<number | null>;
  /** Along which axis the result is to repeat; `both` unless told. */
  readonly axis?: 'x' | 'y' | 'both';
  /** Where its courses lie, so that it is cut in their joints; none unless told. */
  readonly joints?: Joints | null;
  /** How the ends are joined; `auto`, which is what shows least, unless told. */
  readonly method?: JoinMethod | 'auto';
  /**
   * Along which axes the picture meets itself as it is; inspected where nobody says. To be told of the
   * photo before its light was evened: what meets then only by chance is mended.
   */
  readonly meets?: PerAxis<boolean>;
  /** Least share of the picture's area to keep, in per cent; 60 unless told. */
  readonly keep?: number;
}

/** A picture that repeats without a seam. */
export interface Tile {
  /** What repeats. */
  readonly raster: Raster;
  /** The pixel of the input that became the tile's first. */
  readonly start: PerAxis<number>;
  /** Bond repeats in it along each axis, or null where nothing repeats. */
  readonly repeats: PerAxis<number | null>;
  /** Share of the input's area that it kept, in per cent. */
  readonly keptPercent: number;
  /** How its ends were joined. */
  readonly method: MendMethod;
  /**
   * How well each way to join them did, along each axis, from the one that was taken to the worst;
   * null where there was nothing to join.
   */
  readonly joins: PerAxis<readonly JudgedJoin[] | null>;
  /** What became of bricks that a cut ran through. */
  readonly healed: HealedBricks;
}

/**
 * Make a picture repeat without a seam: crop it to whole bond repeats and join its ends in what was
 * left over.
 *
 * @param raster - Level, evenly lit, in linear light, best at print resolution; left as it is.
 * @param options - The bond's repeat, and how.
 * @returns The tile, or that the picture holds less than one repeat.
 * @throws RangeError when an option makes no sense.
 */
export function mendTile(raster: Raster, options: MendOptions): Outcome<Tile, 'too-few-repeats'> {
  const { repeat, method = 'auto', keep = 60 } = options;
  if (!(keep > 0 && keep <= 100)) throw outOfRange('above 0 to 100 per cent', 'keep', keep);
  const { x, y } = intend(raster, options);
  if (x === null || y === null) return tooFew(raster, repeat, x === null);

  const joints = withBond(options.joints ?? null, repeat);
  const { others, unjoined, ...tile } = joinEnds(raster, {
    x,
    y,
    repeat,
    joints,
    methods: waysToTry(method),
  });
  const keptPercent =
    (100 * tile.raster.width * tile.raster.height) / (raster.width * raster.height);
  const { width, height } = tile.raster;
  const repeats = { x: count(width, repeat.x), y: count(height, repeat.y) };
  const warnings = [
    ...others,
    ...unjoined.map(leftUnjoined),
    ...(keptPercent < keep ? [littleKept(keptPercent)] : []),
  ];
  if (!x.mend && !y.mend) warnings.push(nothingToMend(method));
  return { ok: true, value: { ...tile, repeats, keptPercent }, warnings };
}

function withBond(joints: Joints | null, repeat: PerAxis<number | null>): Joints | null {
  if (joints === null) return null;
  const [along, down] = joints.axis === 'y' ? [repeat.x, repeat.y] : [repeat.y, repeat.x];
  if (along === null || down === null) return { ...joints, bond: null };
  return {
    ...joints,
    bond: { length: along, courses: Math.max(1, Math.round(down / joints.course)) },
  };
}

// Where it is known, or the plan or the bond cuts a piece off anyway, nobody need look.
function findSeamless(
  raster: Raster,
  options: MendOptions,
  match: PerAxis<RepeatMatch>,
): PerAxis<boolean> {
  const { meets, period, axis = 'both' } = options;
  const look = (which: 'x' | 'y', length: number): boolean => {
    const known = meets?.[which];
    if (known !== undefined) return known;
    const { repeat } = match[which];
    const planned = period?.[which] ?? null;
    const isWhole =
      planned === null ? repeat === null || holdsWhole(length, repeat) : planned === length;
    const isCut = axis === 'both' && !isWhole;
    return !isCut && inspectAxis(lookSmaller(raster), which).seamless;
  };
  return { x: look('x', raster.width), y: look('y', raster.height) };
}

// To fade one piece into another makes ghosts: of joints, of stones, of the texture's own grain. It is
// done where it is asked for.
function waysToTry(method: JoinMethod | 'auto'): readonly JoinMethod[] {
  return method === 'auto' ? ['gradient', 'cut'] : [method];
}

interface EndsToJoin {
  readonly x: Intent;
  readonly y: Intent;
  readonly repeat: PerAxis<number | null>;
  readonly joints?: Joints | null;
  readonly methods: readonly JoinMethod[];
}

interface JoinedTileOf extends Pick<Tile, 'raster' | 'start' | 'method' | 'joins' | 'healed'> {
  // Where a seam runs through what is not of the courses.
  readonly others: readonly Warning[];
  // Where there was nothing to join its ends in.
  readonly unjoined: readonly ('x' | 'y')[];
}

function joinEnds(raster: Raster, ends: EndsToJoin): JoinedTileOf {
  const { x, y, repeat, methods } = ends;
  const start = { x: 0, y: 0 };
  const joins: Record<'x' | 'y', readonly JudgedJoin[] | null> = { x: null, y: null };
  if (!x.mend && !y.mend) return { raster, start, joins, method: 'none', ...nothingDone };
  let tile = raster;
  let joints = ends.joints ?? null;
  const borders: Record<'x' | 'y', JoinedAxis | null> = { x: null, y: null };
  const unjoined: ('x' | 'y')[] = [];
  for (const axis of ['x', 'y'] as const) {
    const { mend, period } = ends[axis];
    if (!mend) continue;
    // Once x is mended, y must leave it so.
    const closed = axis === 'x' ? y.meets : closes(x);
    const mended = mendAxis(tile, {
      ...{ axis, period, repeat: repeat[axis], closed, joints, methods },
      inPlace: tile !== raster,
    });
    tile = mended.raster;
    start[axis] = mended.start;
    if (mended.tried.length > 0) joins[axis] = mended.tried;
    else unjoined.push(axis);
    borders[axis] = mended.joined;
    if (joints?.axis === axis) joints = { ...joints, offset: joints.offset - mended.start };
  }
  const method = methodOf(joins);
  const closed = { x: closes(x), y: closes(y) };
  const joined = { tile, ends: borders, closed };
  const { healed, others } = finish(raster, joined, method, ends.joints ?? null);
  // Cropping and joining move the mean a little.
  keepMean(raster, tile);
  return { raster: tile, start, joins, method, healed, others, unjoined };
}

function closes({ meets, mend }: Intent): boolean {
  return meets || mend;
}

const nothingHealed = { replaced: 0, left: 0 };
const nothingDone = { healed: nothingHealed, others: [], unjoined: [] };

function finish(
  raster: Raster,
  joined: Omit<JoinedTile, 'look' | 'joints'>,
  method: MendMethod,
  joints: Joints | null,
): Pick<JoinedTileOf, 'healed' | 'others'> {
  if (joints === null) return { healed: nothingHealed, others: [] };
  const look = createLook(raster, joints);
  // What was faded on request has no cut.
  const healed = method === 'blend' ? nothingHealed : healBricks({ ...joined, look, joints });
  return { healed, others: warnOfOther(look, joined.ends, joints) };
}

function methodOf({ x, y }: Tile['joins']): MendMethod {
  const taken = [x, y].flatMap((tried) => tried?.slice(0, 1) ?? []);
  const method = taken[0]?.method ?? 'none';
  return taken.every((join) => join.method === method) ? method : 'mixed';
}

// What is to become of one axis.
interface Intent {
  // Pixels after which it is to repeat.
  readonly period: number;
  // Whether it meets itself as it is, at that period.
  readonly meets: boolean;
  // Whether there is work to do.
  readonly mend: boolean;
}

function intend(raster: Raster, options: MendOptions): PerAxis<Intent | null> {
  const { axis = 'both', keep = 60 } = options;
  const match = findMatch(raster, options);
  const seen = findSeamless(raster, options, match);
  const length = { x: raster.width, y: raster.height };
  const seamless = {
    x: seen.x && !match.x.refutesLength,
    y: seen.y && !match.y.refutesLength,
  };
  const choice = (which: 'x' | 'y'): PeriodChoice => ({
    ...match[which],
    length: length[which],
    planned: axis === 'both' || axis === which ? (options.period?.[which] ?? null) : length[which],
    seamless: seamless[which],
    ...jointsAlong(options.joints ?? null, which),
  });
  const period = choosePeriods(choice('x'), choice('y'), keep / 100);
  const intent = (which: 'x' | 'y'): Intent | null => {
    const chosen = period[which];
    if (chosen === null) return null;
    const meets = seamless[which] && chosen === length[which];
    return { period: chosen, meets, mend: !meets && (axis === 'both' || axis === which) };
  };
  return { x: intent('x'), y: intent('y') };
}

function jointsAlong(joints: Joints | null, which: 'x' | 'y'): Pick<PeriodChoice, 'unit' | 'beds'> {
  if (joints === null) return { unit: null, beds: null };
  const beds = joints.axis === which ? joints : null;
  return { unit: beds === null ? joints.brick : joints.course, beds };
}

function findMatch(
  raster: Raster,
  { period, repeat, keep = 60 }: MendOptions,
): PerAxis<RepeatMatch> {
  // Where both are planned, nobody asks what would have fitted best.
  const nothing = { repeat: null, period: null, refutesLength: false };
  if (period?.x != null && period.y != null) return { x: nothing, y: nothing };
  return matchRepeat(raster, repeat, { least: Math.sqrt(keep / 100) });
}

function leftUnjoined(axis: 'x' | 'y'): Warning {
  const way = axis === 'x' ? 'side by side' : 'one above the other';
  const message = `nothing is left over ${way} to cut in: the ends were not joined there`;
  return { code: 'not-joined', message };
}

function littleKept(percent: number): Warning {
  return {
    code: 'little-kept',
    message: `the tile keeps ${Math.round(percent)} % of the picture: it holds few whole repeats of the bond`,
  };
}

function count(length: number, repeat: number | null): number | null {
  return repeat === null ? null : Math.round(length / repeat);
}

function tooFew(
  raster: Raster,
  repeat: PerAxis<number | null>,
  across: boolean,
): Outcome<Tile, 'too-few-repeats'> {
  const share = across ? raster.width / (repeat.x ?? 1) : raster.height / (repeat.y ?? 1);
  const way = across ? 'side by side' : 'one above the other';
  return {
    ok: false,
    code: 'too-few-repeats',
    message: `this picture holds ${Math.floor(100 * share)} % of one repeat of the bond ${way}; a tile needs a whole one`,
    hint: 'use a photo that shows more of the wall',
  };
}
