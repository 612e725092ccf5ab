import type { Warning } from '../../errors/warning.js';
import type { Raster } from '../../raster/raster.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { px } from '../../units/units.js';
import { evenPicture, type LightReport } from '../mend/even-picture.js';
import type { OpenedSource } from '../open/open-source.js';
import type { ExtensionPlan } from './plan-extension.js';
import { warnOfOneColour } from './warn-of-one-colour.js';

/** A source at the tile's resolution. */
export interface TakenSource {
  /** Its picture. */
  readonly raster: Raster;
  /** Where that begins on the level picture. */
  readonly from: PerAxis<number>;
  /** Its pixels to a level pixel. */
  readonly factor: PerAxis<number>;
  /** Along which axes it goes on with its other side. */
  readonly meets: PerAxis<boolean>;
  /** How uneven its light was that was taken out, or null where it was left. */
  readonly light: LightReport | null;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** How a source is taken. */
export interface TakeOptions {
  /** The tile. */
  readonly plan: ExtensionPlan;
  /** Whether slow changes of light are taken out. */
  readonly even: boolean;
  /** Photos that share the memory. */
  readonly photos: number;
}

// Pixels of all sources together at the tile's resolution.
const mostPixels = 24e6;
// A source enlarged by so much more than the first shows among its bricks.
const softer = 1.3;

/**
 * Bring a source to the tile's resolution, in even light.
 *
 * @param opened - The source, level.
 * @param options - The tile, and how.
 * @returns All of it, or as much of its middle as there is memory for.
 */
export function takeSource(opened: OpenedSource, options: TakeOptions): TakenSource {
  const { known, picture } = opened;
  const { measurement, lattice } = known;
  const { plan, even, photos } = options;
  const exact = {
    x: measurement === null || plan.mmPerPx === null ? 1 : measurement.mmPerPx.x / plan.mmPerPx,
    y: measurement === null || plan.mmPerPx === null ? 1 : measurement.mmPerPx.y / plan.mmPerPx,
  };
  const pixels = picture.width * exact.x * picture.height * exact.y;
  const share = Math.min(1, Math.sqrt(mostPixels / photos / pixels));
  const meets = share < 1 ? { x: false, y: false } : known.meets;
  const factor = {
    x: meets.x ? Math.round(picture.width * exact.x) / picture.width : exact.x,
    y: meets.y ? Math.round(picture.height * exact.y) / picture.height : exact.y,
  };
  const [width, height] = [picture.width * share, picture.height * share];
  const window = {
    x: (picture.width - width) / 2,
    y: (picture.height - height) / 2,
    width,
    height,
  };
  const work = picture.resample({ factor, window, wrap: meets });
  const evened = evenPicture(work, {
    ...{ lattice, from: window, factor, meets, even },
    inPlace: true,
  });
  return {
    raster: evened.raster,
    from: { x: window.x, y: window.y },
    factor,
    meets,
    light: evened.light,
    warnings: [
      ...evened.warnings,
      ...warnOfOneColour(evened.raster),
      ...judgeSharpness(factor, plan.factor),
    ],
  };
}

/**
 * Say where joints lie in a source as it was taken.
 *
 * @param lattice - On the level picture, or null.
 * @param taken - The source.
 * @returns In its pixels, or null.
 */
export function inTaken(lattice: Lattice | null, taken: TakenSource): Lattice | null {
  if (lattice === null) return null;
  const { from, factor } = taken;
  const { axis, course, courseOffset, brick, repeat } = lattice;
  const across = axis === 'y' ? 'x' : 'y';
  return {
    ...lattice,
    course: px(course * factor[axis]),
    courseOffset: (courseOffset - from[axis]) * factor[axis],
    brick: brick && px(brick * factor[across]),
    repeat: { x: repeat.x && px(repeat.x * factor.x), y: repeat.y && px(repeat.y * factor.y) },
  };
}

function judgeSharpness(factor: PerAxis<number>, first: PerAxis<number>): readonly Warning[] {
  const times = Math.max(factor.x / first.x, factor.y / first.y);
  if (times <= softer || Math.max(factor.x, factor.y) <= 1) return [];
  const message = `shows ${times.toFixed(1)} times less detail than the first photo: its bricks look soft beside the others`;
  return [{ code: 'low-resolution', message }];
}
