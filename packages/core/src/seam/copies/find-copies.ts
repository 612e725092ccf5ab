import type { Raster } from '../../raster/raster.js';
import { multiplyBySelf, type SelfProducts } from '../../numeric/multiply-by-self.js';
import type { PerAxis } from '../../surface/measurement.js';
import { confirmCopy, type Fold, type LaidOnItself } from './confirm-copy.js';
import { projectLines, type Projections } from './project-lines.js';
import { type Detail, sampleDetail } from './sample-detail.js';

/** What of a picture is a copy of another part of it, along one axis. */
export interface AxisCopies {
  /** Pixels after which the picture comes again, or null where it does not. */
  readonly period: number | null;
  /** Where it is its own mirror image, pixels from the left or the top, or null. */
  readonly mirror: number | null;
}

/** Copies share all of their detail but what compression and resampling did to it. */
const leastAlike = 0.8;
/** Fewer lines, every so many, may show less of that by chance. */
const every = 8;
const hopeful = 0.6;
/** Regular work is as much like itself at other shifts; a copy is unlike it by this share at most. */
const mostOfOthers = 0.4;
/** Shifts that are tried in full, of those at which a few sums over the lines are most alike. */
const mostTried = 6;
/** Drawn work whose bricks lie too truly is alike as well, but shows more of them than this. */
const fewCopies = 3.5;
const leastOfMany = 0.93;

/**
 * Find out whether a picture was tiled, or laid in a mirror, before: all of it comes again after
 * some shift, grain and stains and all. Regular work does not: no brick is another's copy.
 *
 * @param raster - In linear light.
 * @returns What is copied along each axis.
 */
export function findCopies(raster: Raster): PerAxis<AxisCopies> {
  return { x: findAlong(sampleDetail(raster, 'x')), y: findAlong(sampleDetail(raster, 'y')) };
}

function findAlong(detail: Detail): AxisCopies {
  const projections = projectLines(detail);
  const products = multiplyBySelf(projections.sums, detail.length);
  const period = findFold(detail, likeness(projections, products, 'shift'), {
    kind: 'shift',
    period: null,
  });
  const mirror = findFold(detail, likeness(projections, products, 'mirror'), {
    kind: 'mirror',
    period,
  });
  return {
    period: period === null ? null : period * detail.step,
    // A mirror at sample i + 1/2 of two neighbours i and i + 1 lies on the edge between them.
    mirror: mirror === null ? null : ((mirror + 1) * detail.step) / 2,
  };
}

// Every eighth line.
function thin({ count, length, step, samples }: Detail): Detail {
  const kept = Math.ceil(count / every);
  const few = new Float32Array(kept * length);
  for (let line = 0; line < kept; line++) {
    const from = line * every * length;
    few.set(samples.subarray(from, from + length), line * length);
  }
  return { count: kept, length, step, samples: few };
}

interface Sought {
  readonly kind: Fold;
  /** A shift that was found before, or null. */
  readonly period: number | null;
}

// The least shift that will do, or the sum of the places that a mirror lays on each other.
function findFold(detail: Detail, curve: Float64Array, sought: Sought): number | null {
  const { kind } = sought;
  const peaks = findPeaks(curve).slice(0, mostTried);
  // Most pictures are no copies: a few of their lines tell, and the rest need not be asked.
  const few = thin(detail);
  if (!peaks.some((at) => confirmCopy(few, kind, at).alike >= hopeful)) return null;
  const tried = peaks.map((at) => confirmCopy(detail, kind, at));
  const order = (fold: LaidOnItself): number => (kind === 'shift' ? fold.at : -fold.alike);
  for (const { at, alike } of tried.sort((a, b) => order(a) - order(b))) {
    const isMany = kind === 'shift' && detail.length / at > fewCopies;
    if (alike < (isMany ? leastOfMany : leastAlike)) continue;
    const others = tried.filter((other) => !isRelated(other.at, at, sought));
    const other = Math.max(0, ...others.map((fold) => fold.alike));
    if (1 - alike <= mostOfOthers * (1 - other)) return at;
  }
  return null;
}

// Whatever repeats after a shift repeats after twice that; a mirror has its like a period on.
function isRelated(at: number, first: number, { kind, period }: Sought): boolean {
  const apart = Math.abs(at - first);
  const unit = kind === 'shift' ? first : period;
  const times = unit === null ? 0 : Math.round(apart / unit);
  return Math.abs(apart - times * (unit ?? 0)) <= 3 * Math.max(1, times);
}

// Places above both neighbours, most alike first.
function findPeaks(curve: Float64Array): number[] {
  const peaks: number[] = [];
  for (let at = 1; at < curve.length - 1; at++) {
    const value = curve[at]!;
    if (value > 0.2 && value >= curve[at - 1]! && value > curve[at + 1]!) peaks.push(at);
  }
  return peaks.sort((a, b) => curve[b]! - curve[a]!);
}

// Correlation of the projections with themselves, shifted or turned round, at every place that
// leaves a quarter of the length in common.
function likeness(projections: Projections, products: SelfProducts, kind: Fold): Float64Array {
  const { length } = projections;
  const least = Math.max(16, Math.floor(length / 20));
  const common = Math.floor(length / 4);
  const power = sumSquares(projections);
  if (kind === 'shift') {
    const curve = new Float64Array(length - common + 1);
    for (let at = least; at < curve.length; at++) {
      const [before, after] = [power[length - at]!, power[length]! - power[at]!];
      curve[at] = products.apart[at]! / Math.sqrt(before * after + 1e-20);
    }
    return curve;
  }
  const curve = new Float64Array(2 * length - common);
  for (let at = common; at < curve.length; at++) {
    const first = Math.max(0, at - length + 1);
    // A sample in the middle is laid on itself.
    const [half, next] = [(at + 1) >> 1, (at >> 1) + 1];
    const own = next > half ? power[next]! - power[half]! : 0;
    const [before, after] = [power[half]! - power[first]!, power[at - first + 1]! - power[next]!];
    curve[at] = (products.together[at]! - own) / 2 / Math.sqrt(before * after + 1e-20);
  }
  return curve;
}

// Squares of all samples before each place.
function sumSquares({ count, length, sums }: Projections): Float64Array {
  const power = new Float64Array(length + 1);
  for (let i = 0; i < length; i++) {
    let sum = 0;
    for (let k = 0; k < count; k++) sum += sums[k * length + i]! ** 2;
    power[i + 1] = power[i]! + sum;
  }
  return power;
}
