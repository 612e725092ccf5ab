import { vertexOff } from '../../numeric/vertex-off.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { sampleLines, type SampledLines } from '../inspect/sample-lines.js';

/** After how many pixels a picture is most like itself along one axis. */
export interface RepeatMatch {
  /** One bond repeat, as near as the picture itself tells; null where none was given or it is no repeat. */
  readonly repeat: number | null;
  /** Where there is no repeat: the shift, within what may be cut away, that fits best. */
  readonly period: number | null;
  /**
   * Whether the picture's likeness to itself speaks against its whole length being a repeat: then
   * its ends meet by chance.
   */
  readonly refutesLength: boolean;
}

/** What {@link matchRepeat} may be told. */
export interface MatchRepeatOptions {
  /** Least share of each length to keep where nothing repeats, above 0 to 1; 0.74 unless told. */
  readonly least?: number;
}

// A measured repeat is off by this much at most, as a fraction.
const mostOff = 0.006;
// That much where two places are nearly the same, having less than this share of what is usually unlike;
// else so little that nobody sees it.
const leastUnlike = 0.3;
const mostMoved = 0.002;
// What a texture without a repeat may lose along one axis, and what it must to be cut in.
const freeRange = { least: 0.74, most: 0.9 };
const mostLines = 192;
// Enough to compare: most of a repeat, which has joints in it whatever the bond.
const leastRepeat = 0.7;
// Shifts among which a repeat must stand out, as shares of the length, and the shortest to cut to.
const testRange = { least: 0.4, shortest: 0.6, most: 0.9 };
// It does with this share of what the best of them gains, where that gains enough to tell.
const leastGain = 0.2;
const leastTold = 0.05;
// Of repeats given, some lay unlike on unlike where they gain less than this share of what others do.
const clearLoss = 0.15;
// And those others gain at least this share of what is usual: less tells nothing of one shift in three.
const leastClear = 0.2;
// A picture clearly like itself gains this share of what is usual, and the rest of its length must
// gain this share of that.
const clearGain = 0.4;
const leastRest = 0.3;

/**
 * Let a picture itself say after how many pixels it repeats: a measured repeat, held against the
 * picture shifted by as many repeats as it holds, is put right by what a few thousandths add up to,
 * or dropped where it lays unlike on unlike; and where no repeat is known, the shift is found that
 * lays like on like.
 *
 * @param raster - Level, in linear light.
 * @param repeat - One bond repeat in pixels along each axis, or null.
 * @param options - How little of the picture may be kept.
 * @returns The match along each axis.
 */
export function matchRepeat(
  raster: Raster,
  repeat: PerAxis<number | null>,
  options: MatchRepeatOptions = {},
): PerAxis<RepeatMatch> {
  const { least = freeRange.least } = options;
  return {
    x: matchAxis(sampleLines(raster, 'x', mostLines), repeat.x, least),
    y: matchAxis(sampleLines(raster, 'y', mostLines), repeat.y, least),
  };
}

function matchAxis(lines: SampledLines, repeat: number | null, least: number): RepeatMatch {
  const times = repeat === null ? null : heldTimes(lines, repeat);
  if (repeat === null || times === null) {
    const refuted = refutesLength(lines);
    // Bricks that do repeat, though nobody knows after how much, are worth more of the picture.
    const period = freeMatch(lines, refuted ? testRange.shortest : least);
    return { repeat: null, period, refutesLength: refuted };
  }
  return { repeat: refined(lines, times * repeat), period: null, refutesLength: false };
}

// A picture that repeats after all of its length, and is like itself shifted by a part of it, is
// so shifted by the rest of it too.
function refutesLength(full: SampledLines): boolean {
  const lines = thinned(full, Math.max(1, Math.floor(full.length / 256)));
  const { length } = lines;
  const least = Math.max(1, Math.floor((1 - testRange.most) * length) - 2);
  const curve = mismatches(lines, least, Math.floor(testRange.most * length));
  if (curve.length < 16) return false;
  const usual = curve.toSorted()[curve.length >> 1]!;
  const far = Math.max(0, Math.floor(testRange.least * length) - least);
  const best = far + lowest(curve.subarray(far));
  const gain = usual - curve[best]!;
  if (gain < clearGain * usual) return false;
  const rest = length - (least + best) - least;
  const near = curve.subarray(Math.max(0, rest - 2), Math.max(0, rest) + 3);
  return usual - near[lowest(near)]! < leastRest * gain;
}

// How many repeats given make one that lays like on like: 1, unless every second or third shift
// alone does. Null where another shift lays like on like and no multiple does: it was no repeat.
function heldTimes(full: SampledLines, repeat: number): number | null {
  const every = Math.max(1, Math.floor(full.length / 256));
  const lines = thinned(full, every);
  const least = Math.max(1, Math.floor(testRange.least * lines.length));
  // What is left over is most of a repeat: less of it is like anything by chance.
  const rest = Math.max((1 - testRange.most) * lines.length, (leastRepeat * repeat) / every);
  const most = Math.floor(lines.length - rest);
  if (most - least < 8) return 1;
  const curve = mismatches(lines, least, most);
  const usual = curve.toSorted()[curve.length >> 1]!;
  const gain = usual - curve[lowest(curve)]!;
  const gains = gainsOf(curve, { least, repeat: repeat / every, usual });
  const claimed = Math.max(...gains.values());
  if (gains.size === 0 || gain < leastTold * usual) return 1;
  if (claimed < leastTold * usual && gain < 2 * leastTold * usual) return 1;
  // One shift alone may lose by chance, too.
  const isClear = gains.size > 1 || gain >= clearGain * usual;
  if (claimed < leastGain * gain) return isClear ? null : 1;
  return timesOf(gains, leastClear * usual);
}

// By how much less than usual the picture differs from itself, shift by shift of so many repeats.
function gainsOf(
  curve: Float64Array,
  { least, repeat, usual }: { least: number; repeat: number; usual: number },
): Map<number, number> {
  const gains = new Map<number, number>();
  for (let repeats = 1; repeats * repeat < least + curve.length; repeats++) {
    const shift = repeats * repeat;
    const reach = 1 + mostOff * shift;
    const from = Math.max(0, Math.floor(shift - reach) - least);
    const near = curve.subarray(from, Math.max(0, Math.ceil(shift + reach) - least + 1));
    if (near.length > 0) gains.set(repeats, usual - near[lowest(near)]!);
  }
  return gains;
}

// Where the others gain next to nothing beside those that are kept.
function timesOf(gains: ReadonlyMap<number, number>, least: number): number {
  for (const times of [2, 3]) {
    const kept = [...gains].flatMap(([repeats, gain]) => (repeats % times === 0 ? [gain] : []));
    const others = [...gains].flatMap(([repeats, gain]) => (repeats % times === 0 ? [] : [gain]));
    // One shift alone may gain by chance.
    if (kept.length < 2 || kept.some((gain) => gain <= 0) || meanOf(kept) < least) continue;
    const most = (others.length > 1 ? clearLoss : -clearLoss) * meanOf(kept);
    if (others.length > 0 && meanOf(others) < most) return times;
  }
  return 1;
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function refined(lines: SampledLines, repeat: number): number {
  const repeats = Math.floor(lines.length / repeat - leastRepeat);
  if (repeats < 1) return repeat;
  const shift = repeats * repeat;
  const reach = Math.min(0.2 * repeat, mostOff * shift);
  const most = Math.min(lines.length - 2, Math.ceil(shift + reach));
  const least = Math.max(1, Math.floor(shift - reach));
  const curve = mismatches(lines, least, most);
  const best = lowest(curve);
  // The bottom of a valley, and a deep one: else the picture has nothing to say.
  const inside = best > 0 && best < curve.length - 1;
  const usual = mismatches(
    lines,
    Math.max(1, Math.round(shift - repeat / 3)),
    Math.round(shift - repeat / 4),
  );
  const unlike = curve[best]! / mean(usual);
  if (!inside || unlike > 0.9) return repeat;
  const found = (least + best + vertexOff(curve, best)) / repeats;
  // Where bricks are laid as they come two places say little of all courses: these keep their height, and
  // what joints miss one another by is left to be moved.
  if (unlike < leastUnlike) return found;
  return Math.min((1 + mostMoved) * repeat, Math.max((1 - mostMoved) * repeat, found));
}

function freeMatch(lines: SampledLines, shortest: number): number {
  const { length } = lines;
  const least = Math.max(1, Math.floor(shortest * length));
  const most = Math.min(length - 2, Math.ceil(freeRange.most * length));
  if (most <= least) return length;
  const coarse = Math.max(1, Math.floor(length / 256));
  const rough = mismatches(
    thinned(lines, coarse),
    Math.floor(least / coarse),
    Math.floor(most / coarse),
  );
  // What is cut away costs a little, or the shortest tile would win by chance.
  const priced = rough.map((value, i) => value * (1 + (0.6 * (rough.length - i)) / rough.length));
  const found = (Math.floor(least / coarse) + lowest(priced)) * coarse;
  const from = Math.max(1, found - coarse);
  const curve = mismatches(lines, from, Math.min(length - 2, found + coarse));
  return from + lowest(curve);
}

// How unlike the lines are to themselves shifted by least to most pixels: 0 the same, 1 strangers.
function mismatches(lines: SampledLines, least: number, most: number): Float64Array {
  const { count, length, samples } = lines;
  const curve = new Float64Array(most - least + 1);
  const { sums, powers } = upTo(lines);
  for (let shift = least; shift <= most; shift++) {
    const room = length - shift;
    let unlike = 0;
    for (let line = 0; line < count; line++) {
      const start = line * length;
      for (let at = start; at < start + room; at++) {
        const step = samples[at]! - samples[at + shift]!;
        unlike += step * step;
      }
    }
    const sum = sums[room]! + sums[length]! - sums[shift]!;
    const squares = powers[room]! + powers[length]! - powers[shift]!;
    const size = 2 * count * room;
    const spread = squares / size - (sum / size) ** 2;
    curve[shift - least] = (2 * unlike) / size / (2 * spread + 1e-9);
  }
  return curve;
}

// Sums over all samples before a place, and of their squares.
function upTo({ count, length, samples }: SampledLines): {
  readonly sums: Float64Array;
  readonly powers: Float64Array;
} {
  const [sums, powers] = [new Float64Array(length + 1), new Float64Array(length + 1)];
  for (let line = 0, i = 0; line < count; line++) {
    for (let at = 1; at <= length; at++, i++) {
      const sample = samples[i]!;
      sums[at]! += sample;
      powers[at]! += sample * sample;
    }
  }
  for (let at = 1; at <= length; at++) {
    sums[at]! += sums[at - 1]!;
    powers[at]! += powers[at - 1]!;
  }
  return { sums, powers };
}

function thinned({ count, length, samples }: SampledLines, every: number): SampledLines {
  const size = Math.floor(length / every);
  const out = new Float32Array(count * size);
  for (let line = 0; line < count; line++) {
    for (let i = 0; i < size; i++) {
      let sum = 0;
      for (let step = 0; step < every; step++) sum += samples[line * length + i * every + step]!;
      out[line * size + i] = sum / every;
    }
  }
  return { count, length: size, samples: out };
}

function lowest(curve: Float64Array): number {
  let best = 0;
  for (let i = 1; i < curve.length; i++) if (curve[i]! < curve[best]!) best = i;
  return best;
}

function mean(curve: Float64Array): number {
  return curve.reduce((sum, value) => sum + value, 0) / curve.length;
}
