import type { Outcome } from '../../errors/outcome.js';
import { type AxisPlan, planTile } from '../../fill/plan-tile.js';
import { repeatTile } from '../../fill/repeat-tile.js';
import type { Raster } from '../../raster/raster.js';
import { holdsWhole } from '../../seam/mend/holds-whole.js';
import type { Seam } from '../../seam/inspect/inspect-seams.js';
import { matchRepeat, type RepeatMatch } from '../../seam/mend/match-repeat.js';
import { type MendOptions, mendTile } from '../../seam/mend/mend-tile.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import type { Dpi } from '../../units/units.js';
import { evenPicture, type LightReport } from '../mend/even-picture.js';
import type { FoundRepeat } from '../measure/find-repeat.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { layJoints } from '../mend/lay-joints.js';
import type { LevelPicture } from '../open/open-level.js';
import { placeOrigin } from './place-origin.js';
import { mostDots, refuseSmall } from './refuse-small.js';

/** How a photo becomes a tile at print resolution. */
export interface MakeTileOptions extends JobOptions, FoundRepeat {
  /** Printed dots per pixel of the level picture. */
  readonly factor: PerAxis<number>;
  /** Print resolution. */
  readonly dpi: Dpi;
  /** How the picture meets itself as it is. */
  readonly seams: PerAxis<Seam>;
  /** Whether slow changes of light are taken out. */
  readonly even: boolean;
  /** How its ends are joined. */
  readonly method: NonNullable<MendOptions['method']>;
}

/** A tile at print resolution. */
export interface PrintTile {
  /** What repeats, in dots. */
  readonly raster: Raster;
  /** How uneven the light was that was taken out, or null where it was left. */
  readonly light: LightReport | null;
  /** How it was planned. */
  readonly plan: PerAxis<AxisPlan>;
  /** The dot of it that lies on the datum: along the courses' axis it is a bed joint's. */
  readonly origin: PerAxis<number>;
}

/** A tile that was mended. */
export interface MendedTile extends PrintTile {
  /** What was mended, before it was laid side by side in `raster` and brought to whole dots. */
  readonly mended: Raster;
}

/** Why a photo makes no tile. */
export type TileRefusal = 'too-few-repeats' | 'too-small' | 'too-large';

interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Bring a photo to print resolution and make it repeat there: after a whole number of dots, so that
 * its scale stays true.
 *
 * @param picture - The photo, level.
 * @param options - Its repeat, the resolution, and how to mend.
 * @returns The tile, or why the photo makes none.
 */
export function makeTile(
  picture: LevelPicture,
  options: MakeTileOptions,
): Outcome<MendedTile, TileRefusal> {
  const { lattice, seams, factor, dpi, method } = options;
  const refusal = refuseSmall(picture, factor);
  if (refusal) return refusal;
  // A few thousandths of a repeat, times as many as the photo holds, are dots at the seam.
  const match = matchLevel(picture, options.repeat);
  const repeat = { x: match.x.repeat, y: match.y.repeat };
  const window = takeWindow(picture, repeat, factor);
  if (window === null) return tooLarge(repeat, factor);

  const wrap = {
    x: isWhole(picture.width, window.width, match.x) && seams.x.seamless,
    y: isWhole(picture.height, window.height, match.y) && seams.y.seamless,
  };
  const stretch = {
    x: stretchOf(wrap.x, repeat.x, options.repeat.x),
    y: stretchOf(wrap.y, repeat.y, options.repeat.y),
  };
  const unit = unitOf(lattice);
  const planned = planTile(
    {
      x: {
        length: window.width,
        ...match.x,
        unit: unit.x,
        factor: factor.x * stretch.x,
        seamless: wrap.x,
      },
      y: {
        length: window.height,
        ...match.y,
        unit: unit.y,
        factor: factor.y * stretch.y,
        seamless: wrap.y,
      },
    },
    { resolution: dpi },
  );
  if (!planned.ok) return planned;
  const plan = planned.value;

  beginStep('scaling', options);
  const workFactor = { x: plan.x.workFactor, y: plan.y.workFactor };
  const work = picture.resample({ factor: workFactor, window, wrap });
  const evened = evenPicture(work, {
    lattice,
    from: window,
    factor: workFactor,
    meets: wrap,
    even: options.even,
    inPlace: true,
  });
  beginStep('mending', options);
  const joints = lattice && layJoints(lattice, { from: window, factor: workFactor });
  const mended = mendTile(evened.raster, {
    repeat: {
      x: repeat.x === null ? null : repeat.x * workFactor.x,
      y: repeat.y === null ? null : repeat.y * workFactor.y,
    },
    period: { x: plan.x.workPeriod, y: plan.y.workPeriod },
    joints,
    meets: wrap,
    method,
  });
  if (!mended.ok) return mended;
  const origin = placeOrigin(joints, plan, mended.value.start);
  return {
    ok: true,
    value: {
      raster: repeatTile(mended.value.raster, plan),
      mended: mended.value.raster,
      light: evened.light,
      plan,
      origin,
    },
    warnings: [...planned.warnings, ...evened.warnings, ...mended.warnings],
  };
}

// In a course along the courses' axis, in a brick across it, there is a joint everywhere.
function unitOf(lattice: Lattice | null): PerAxis<number | null> {
  if (lattice === null) return { x: null, y: null };
  const { axis, course, brick } = lattice;
  return axis === 'x' ? { x: course, y: brick } : { x: brick, y: course };
}

// The same in level pixels, however fine the picture was looked at.
function matchLevel(
  { look, lookFactor }: LevelPicture,
  repeat: PerAxis<number | null>,
): PerAxis<RepeatMatch> {
  const match = matchRepeat(look, {
    x: repeat.x && repeat.x * lookFactor.x,
    y: repeat.y && repeat.y * lookFactor.y,
  });
  const toLevel = (axis: 'x' | 'y'): RepeatMatch => {
    const { repeat: found, period, refutesLength } = match[axis];
    const factor = lookFactor[axis];
    return { repeat: found && found / factor, period: period && period / factor, refutesLength };
  };
  return { x: toLevel('x'), y: toLevel('y') };
}

// Joints wander: where the picture lays like on like after a little more or less than was measured
// over all of it, that piece is still so many courses, and is brought to their true height.
function stretchOf(wraps: boolean, matched: number | null, measured: number | null): number {
  if (wraps || matched === null || measured === null) return 1;
  return (Math.round(matched / measured) * measured) / matched;
}

// Whether the whole photo, whose ends meet along an axis, may be laid end to end.
function isWhole(length: number, used: number, { repeat, refutesLength }: RepeatMatch): boolean {
  if (used !== length || refutesLength) return false;
  return repeat === null || holdsWhole(length, repeat);
}

// All of the photo, or as much from its middle as can be worked on at once.
function takeWindow(
  { width, height }: LevelPicture,
  repeat: PerAxis<number | null>,
  factor: PerAxis<number>,
): Window | null {
  const dots = width * factor.x * height * factor.y;
  if (dots <= mostDots) return { x: 0, y: 0, width, height };
  const share = Math.sqrt(mostDots / dots);
  // A quarter of a repeat over, to cut in.
  const columns = Math.min(width, Math.max(width * share, 1.25 * (repeat.x ?? 0)));
  const rows = Math.min(height, Math.max(height * share, 1.25 * (repeat.y ?? 0)));
  if (columns * factor.x * rows * factor.y > 2 * mostDots) return null;
  return { x: (width - columns) / 2, y: (height - rows) / 2, width: columns, height: rows };
}

function tooLarge(
  repeat: PerAxis<number | null>,
  factor: PerAxis<number>,
): Outcome<never, 'too-large'> {
  const across = Math.round((repeat.x ?? 0) * factor.x);
  const down = Math.round((repeat.y ?? 0) * factor.y);
  return {
    ok: false,
    code: 'too-large',
    message: `one repeat of the bond comes to ${across} x ${down} dots on paper, more than can be worked on at once`,
    hint: 'choose a smaller scale or fewer dots per inch',
  };
}
