import type { Outcome } from '../../errors/outcome.js';
import { holdsWhole } from '../../seam/mend/holds-whole.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { ExtendWish } from './extend-wish.js';
import { repeatOf } from '../measure/find-repeat.js';
import type { KnownSource } from '../open/open-source.js';

/** A tile, planned. */
export interface ExtensionPlan {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Bond repeats in it, or null where nothing repeats; courses where only they do. */
  readonly repeats: PerAxis<number | null>;
  /** Pixels of the tile to a level pixel of the first photo. */
  readonly factor: PerAxis<number>;
  /** Real millimetres to a pixel of the tile, or null where nobody knows. */
  readonly mmPerPx: number | null;
  /** How much larger it is than asked, in per cent, so that it holds whole repeats. */
  readonly roundedPercent: PerAxis<number>;
  /** Its size over that of so many true repeats, less 1. */
  readonly scaleError: PerAxis<number>;
}

/** How much larger than asked a tile may come out. */
export interface ExtensionOptions {
  /**
   * By what share it may be larger still than the whole repeats that it takes, so that those come nearer to
   * whole pixels: what is laid again and again is to stay true. None unless told.
   */
  readonly spare?: number;
}

/** Why there is no such tile. */
export type PlanRefusal = 'too-large' | 'not-larger';

// As many pixels as are worked on at once anywhere: 288 MB in three planes of Float32.
const mostPixels = 24e6;
const leastSide = 16;
// A size that falls short of whole repeats by less than this share of one is not put up to the next.
const grace = 0.02;

/**
 * Plan a tile: as much as was asked for, in whole bond repeats, and no more than can be held.
 *
 * @param first - The photo that says how fine it is and where its courses lie.
 * @param wish - How large.
 * @param options - How much larger.
 * @returns The plan, or why there is none.
 */
export function planExtension(
  first: KnownSource,
  wish: ExtendWish,
  options: ExtensionOptions = {},
): Outcome<ExtensionPlan, PlanRefusal> {
  const { lattice } = first;
  const { spare = 0 } = options;
  const { mmPerPx, factor } = finenessOf(first, wish);
  const size = { x: first.width * factor.x, y: first.height * factor.y };
  const asked = askedFor(wish, size, mmPerPx ?? 1);
  if (asked.x <= 1.001 * size.x && asked.y <= 1.001 * size.y) {
    return notLarger({ size, asked, mmPerPx });
  }
  const one = lattice === null ? { x: null, y: null } : repeatFor(lattice);
  const along = (axis: 'x' | 'y'): Repeats => {
    const unit = one[axis] ?? brickAlong(lattice, axis);
    const repeat = unit && unit * factor[axis];
    const counted = wish.kind === 'times' && repeat !== null ? inWhole(size[axis], repeat) : 1;
    return wholeRepeats(asked[axis] * counted, repeat, spare);
  };
  const [x, y] = [along('x'), along('y')];
  if (x.length * y.length > mostPixels) return tooLarge(x.length, y.length, wish);
  return {
    ok: true,
    value: {
      width: x.length,
      height: y.length,
      repeats: { x: one.x && x.repeats, y: one.y && y.repeats },
      factor,
      mmPerPx,
      roundedPercent: {
        x: 100 * (x.length / asked.x - 1),
        y: 100 * (y.length / asked.y - 1),
      },
      scaleError: { x: x.scaleError, y: y.scaleError },
    },
    warnings: [],
  };
}

// As fine as the printer prints, else as the photo is along its finer axis.
function finenessOf(
  { measurement }: KnownSource,
  wish: ExtendWish,
): Pick<ExtensionPlan, 'mmPerPx' | 'factor'> {
  if (measurement === null) return { mmPerPx: null, factor: { x: 1, y: 1 } };
  const { x, y } = measurement.mmPerPx;
  const mmPerPx = wish.print?.mmPerDot ?? Math.min(x, y);
  return { mmPerPx, factor: { x: x / mmPerPx, y: y / mmPerPx } };
}

// Where the bond is not known, single courses: a run of one goes anywhere.
function repeatFor(lattice: NonNullable<KnownSource['lattice']>): PerAxis<number | null> {
  const { axis, course, bond } = lattice;
  const across = axis === 'y' ? 'x' : 'y';
  const { repeat } = repeatOf(lattice);
  if (bond !== null && repeat[across] !== null) return repeat;
  return axis === 'y' ? { x: null, y: course } : { x: course, y: null };
}

// A course closes on itself after whole bricks, whatever they are laid in.
function brickAlong(lattice: KnownSource['lattice'], along: 'x' | 'y'): number | null {
  return lattice === null || lattice.axis === along ? null : lattice.brick;
}

function askedFor(wish: ExtendWish, size: PerAxis<number>, mmPerPx: number): PerAxis<number> {
  if (wish.kind === 'times') return { x: wish.times.x * size.x, y: wish.times.y * size.y };
  return { x: wish.mm.width / mmPerPx, y: wish.mm.height / mmPerPx };
}

// What a measurement is off by adds up: so many times a wall of whole repeats are whole repeats, and
// not one more.
function inWhole(length: number, repeat: number): number {
  return holdsWhole(length, repeat) ? (Math.round(length / repeat) * repeat) / length : 1;
}

interface Repeats {
  readonly length: number;
  readonly repeats: number | null;
  readonly scaleError: number;
}

function wholeRepeats(asked: number, repeat: number | null, spare: number): Repeats {
  if (repeat === null) {
    return { length: Math.max(leastSide, Math.round(asked)), repeats: null, scaleError: 0 };
  }
  const least = Math.max(1, Math.ceil(asked / repeat - grace));
  const most = Math.max(least, Math.floor(least * (1 + spare)));
  let best = roundRepeats(least, repeat);
  for (let repeats = least + 1; repeats <= most; repeats++) {
    const rounded = roundRepeats(repeats, repeat);
    if (Math.abs(rounded.scaleError) < Math.abs(best.scaleError)) best = rounded;
  }
  return best;
}

function roundRepeats(repeats: number, repeat: number): Repeats {
  const length = Math.max(leastSide, Math.round(repeats * repeat));
  return { length, repeats, scaleError: length / (repeats * repeat) - 1 };
}

interface Compared {
  readonly size: PerAxis<number>;
  readonly asked: PerAxis<number>;
  readonly mmPerPx: number | null;
}

function notLarger({ size, asked, mmPerPx }: Compared): Outcome<never, 'not-larger'> {
  const unit = mmPerPx === null ? 'px' : 'mm of the real thing';
  const show = ({ x, y }: PerAxis<number>): string =>
    [x, y].map((side) => Number((side * (mmPerPx ?? 1)).toPrecision(4))).join(' x ');
  return {
    ok: false,
    code: 'not-larger',
    message: `the photo shows ${show(size)} ${unit} already, and ${show(asked)} were asked for`,
    hint: 'fill cuts a piece of any size from it, mend makes it repeat; ask extend for more than it shows',
  };
}

function tooLarge(width: number, height: number, wish: ExtendWish): Outcome<never, 'too-large'> {
  const cure =
    wish.print === null
      ? 'ask for less, or give a --scale: at print resolution it takes fewer pixels'
      : 'ask for less, a smaller scale or fewer dots per inch; fill repeats a tile over any size';
  return {
    ok: false,
    code: 'too-large',
    message: `the tile comes to ${width} x ${height} px, more than the ${mostPixels / 1e6} million that can be worked on at once`,
    hint: cure,
  };
}
