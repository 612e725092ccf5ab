import { outOfRange } from '../../errors/out-of-range.js';
import type { PerAxis } from '../../surface/measurement.js';
import { holdsWhole } from './holds-whole.js';

/** What the period along one axis is chosen from. */
export interface PeriodChoice {
  /** The picture along that axis, px. */
  readonly length: number;
  /** One bond repeat in pixels, or null. */
  readonly repeat: number | null;
  /** The period that fits best where there is no repeat, or null. */
  readonly period: number | null;
  /**
   * Whether it is of bricks that repeat though nobody knows after how much: to cut none of them is
   * worth more of the picture.
   */
  readonly refutesLength: boolean;
  /** The period wanted, where somebody planned it or all of the picture is to stay; else null. */
  readonly planned: number | null;
  /** Whether the picture's ends meet as they are. */
  readonly seamless: boolean;
  /** Pixels of overlap in which a cut finds a joint everywhere: a brick, a course; null where none are. */
  readonly unit: number | null;
  /** Bed joints across the axis, one of which a cut may run in, or null where there are none. */
  readonly beds: { readonly course: number; readonly offset: number } | null;
}

// Of a picture in which nothing repeats, at least this much is overlap to cut in.
const leastCut = 0.1;

// What a measured repeat may be off by, as a fraction: no more than nobody sees in a brick.
const slack = 0.002;

// Shares of the picture that are worth giving: for an overlap in which there is a joint everywhere,
// for a bed joint in it, and for courses not off by half a pixel.
const worth = { overlap: 0.2, joint: 0.1, whole: 0.3 };
// How far from the end of what is left over a bed joint must lie, in courses.
const fromEnd = 0.1;
// What a period costs that cuts bricks of an unknown bond.
const unfit = 0.2;

/**
 * Choose after how many whole pixels a picture is to repeat along both axes: whole repeats of its
 * bond that keep as much of its area as is asked, or as near to that as they come, and of those the
 * best to cut in.
 *
 * @param x - What there is along x.
 * @param y - And along y.
 * @param keep - Least share of the area to keep, above 0 to 1.
 * @returns The periods, null along an axis along which the picture holds less than one repeat.
 * @throws RangeError when a number makes no sense.
 */
export function choosePeriods(
  x: PeriodChoice,
  y: PeriodChoice,
  keep: number,
): PerAxis<number | null> {
  const [across, down] = [optionsOf(x, keep), optionsOf(y, keep)];
  const least = Math.ceil(keep * x.length * y.length);
  let best: PerAxis<number | null> = {
    x: across.at(0)?.period ?? null,
    y: down.at(0)?.period ?? null,
  };
  let price = Infinity;
  let most = 0;
  for (const one of across) {
    for (const other of down) {
      const area = one.period * other.period;
      const enough = area >= least;
      const cost = one.price + other.price;
      if (enough ? cost >= price : price < Infinity || area <= most) continue;
      best = { x: one.period, y: other.period };
      if (enough) price = cost;
      else most = area;
    }
  }
  return best;
}

interface Option {
  readonly period: number;
  readonly price: number;
}

function optionsOf(choice: PeriodChoice, keep: number): Option[] {
  const { length, repeat, planned, seamless } = choice;
  if (planned !== null) {
    if (Number.isInteger(planned) && planned >= 1 && planned <= length) {
      return [{ period: planned, price: 0 }];
    }
    throw outOfRange(`a whole number of 1 to ${length} pixels`, 'period', planned);
  }
  if (repeat === null) return seamless ? [{ period: length, price: 0 }] : freePeriods(choice, keep);
  if (!(repeat >= 1 && repeat < Infinity)) throw outOfRange('1 pixel or more', 'repeat', repeat);
  if (seamless && holdsWhole(length, repeat)) return [{ period: length, price: 0 }];
  return wholePeriods(choice, repeat);
}

// The one that fits best; and, should that leave too little, what keeps enough both ways together.
function freePeriods({ length, period, refutesLength }: PeriodChoice, keep: number): Option[] {
  const most = Math.max(1, Math.floor(length * (1 - leastCut)));
  const share = Math.ceil(length * (refutesLength ? keep : Math.sqrt(keep)));
  const fitting = Math.min(length, Math.max(1, share, Math.min(period ?? most, most)));
  const enough = Math.min(length, Math.max(fitting, Math.ceil(length * Math.sqrt(keep))));
  return [
    { period: fitting, price: 0 },
    { period: enough, price: unfit },
    { period: Math.max(enough, most), price: 2 * unfit },
  ];
}

function wholePeriods(choice: PeriodChoice, repeat: number): Option[] {
  const held = choice.length / repeat;
  // A photo cut to whole repeats is measured a hair longer or shorter.
  const most = Math.floor(held * (1 + slack));
  return Array.from({ length: most }, (_, i) => ({
    period: Math.min(choice.length, Math.round((i + 1) * repeat)),
    price: priceOf((i + 1) * repeat, choice),
  }));
}

// Picture thrown away, too little overlap to mend in, courses off by part of a pixel, bricks cut.
function priceOf(exact: number, { length, unit, repeat, beds }: PeriodChoice): number {
  const over = Math.max(0, length - exact);
  const short = Math.max(0, 1 - over / (unit ?? repeat ?? length));
  const cut = beds === null || holdsBed(over, beds) ? 0 : 1;
  const off = Math.abs(exact - Math.round(exact));
  return (
    over / length + worth.overlap * short * short + worth.joint * cut + worth.whole * off * off
  );
}

// Whether a joint lies in what is left over.
function holdsBed(over: number, { course, offset }: NonNullable<PeriodChoice['beds']>): boolean {
  const shy = fromEnd * course;
  const first = offset - Math.floor((offset - shy) / course) * course;
  return first <= over - shy;
}
