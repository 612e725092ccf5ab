import { outOfRange } from '../errors/out-of-range.js';
import { holdsWhole } from './holds-whole.js';

/** What a period is chosen from. */
export interface PeriodChoice {
  /** One bond repeat in pixels, or null. */
  readonly repeat: number | null;
  /** The period that fits best where there is no repeat, or null. */
  readonly period: number | null;
  /**
   * Whether it is of bricks that repeat though nobody knows after how much: to cut none of them is
   * worth more of the picture.
   */
  readonly refutesLength: boolean;
  /** The period wanted, where somebody planned it. */
  readonly planned: number | null;
  /** Least share of the area to keep, in per cent. */
  readonly keep: number;
  /** Whether the picture's ends meet as they are. */
  readonly seamless: boolean;
  /** Bed joints across the axis, one of which a cut may run in, or null where there are none. */
  readonly beds: { readonly course: number; readonly offset: number } | null;
}

// Of a picture in which nothing repeats, at least this much is overlap to cut in.
const leastCut = 0.1;

// What a measured repeat may be off by, as a fraction.
const slack = 0.01;

// Share of the picture that is worth giving to cut in a joint instead of through a course of bricks, and
// how far from the end of what is left over it must lie, in courses.
const jointWorth = 0.15;
const fromEnd = 0.1;

/**
 * Choose after how many whole pixels a picture is to repeat along one axis.
 *
 * @param length - The picture along that axis.
 * @param choice - Its bond's repeat, and what is wanted.
 * @returns The period, or null where the picture holds less than one repeat.
 * @throws RangeError when a number makes no sense.
 */
export function choosePeriod(length: number, choice: PeriodChoice): number | null {
  const { repeat, period, refutesLength, planned, keep, seamless, beds } = choice;
  if (planned !== null) {
    if (Number.isInteger(planned) && planned >= 1 && planned <= length) return planned;
    throw outOfRange(`a whole number of 1 to ${length} pixels`, 'period', planned);
  }
  // Both ways together.
  const share = Math.sqrt(keep / 100);
  if (repeat === null) {
    return seamless ? length : freePeriod(length, period, refutesLength ? keep / 100 : share);
  }
  if (!(repeat >= 1 && repeat < Infinity)) throw outOfRange('1 pixel or more', 'repeat', repeat);
  if (seamless && holdsWhole(length, repeat)) return length;
  return wholePeriod({ length, repeat, beds }, share);
}

function freePeriod(length: number, fitting: number | null, share: number): number {
  const least = Math.ceil(length * share);
  const most = Math.floor(length * (1 - leastCut));
  return Math.min(length, Math.max(1, least, Math.min(fitting ?? most, most)));
}

interface WholeChoice extends Pick<PeriodChoice, 'beds'> {
  readonly length: number;
  readonly repeat: number;
}

function wholePeriod(choice: WholeChoice, share: number): number | null {
  const { length, repeat } = choice;
  const held = length / repeat;
  // A photo cut to whole repeats is measured a hair longer or shorter.
  const most = Math.floor(held * (1 + slack));
  if (most < 1) return null;
  let best = most;
  let least = priceOf(best, choice);
  for (let repeats = best - 1; repeats >= share * held; repeats--) {
    const price = priceOf(repeats, choice);
    if (price < least) [best, least] = [repeats, price];
  }
  return Math.min(length, Math.round(best * repeat));
}

// Picture thrown away, too little overlap to mend in, courses off by part of a pixel, bricks cut.
function priceOf(repeats: number, { length, repeat, beds }: WholeChoice): number {
  const held = length / repeat;
  const lost = 1 - repeats / held;
  const short = Math.min(1, Math.max(0, 1 - (held - repeats)));
  const exact = repeats * repeat;
  const cut = beds === null || holdsBed(length - exact, beds) ? 0 : jointWorth;
  return lost + 0.3 * short * short + 0.3 * Math.abs(exact - Math.round(exact)) + cut;
}

// Whether a joint lies in what is left over.
function holdsBed(over: number, { course, offset }: NonNullable<PeriodChoice['beds']>): boolean {
  const shy = fromEnd * course;
  const first = offset - Math.floor((offset - shy) / course) * course;
  return first <= over - shy;
}
