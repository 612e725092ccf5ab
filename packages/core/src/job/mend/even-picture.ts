import type { Warning } from '../../errors/warning.js';
import { evenLight } from '../../even/even-light.js';
import type { Raster } from '../../raster/raster.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { layJoints } from './lay-joints.js';
import { toFigures } from '../to-figures.js';

/** How uneven the light was that was taken out of a photo. */
export interface LightReport {
  /** How much lighter it was at its lightest than at its darkest. */
  readonly strengthPercent: number;
  /** Where it was lightest: `top left` and the like, or null where it was even. */
  readonly lightest: string | null;
  /** Where it was darkest. */
  readonly darkest: string | null;
}

/** A picture, and what is known of it. */
export interface PictureToEven {
  /** Where its joints lie, in pixels of the photo once level, or null. */
  readonly lattice: Lattice | null;
  /** Where the picture begins, in the same pixels. */
  readonly from: PerAxis<number>;
  /** Pixels of the picture to one of those. */
  readonly factor: PerAxis<number>;
  /** Whether it is to be done at all. */
  readonly even: boolean;
  /** Which sides of it meet already: along those, light does not drift. */
  readonly meets: PerAxis<boolean>;
  /** Whether its own planes may be written to; not unless told. */
  readonly inPlace?: boolean;
}

/** A picture in even light. */
export interface EvenPicture {
  /** The picture. */
  readonly raster: Raster;
  /** How uneven it was, or null where it was left. */
  readonly light: LightReport | null;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** Light that differs by more, in per cent, leaves noise where it was darkest. */
const mostStrength = 200;
/**
 * Two stops, more than lens and lamp come to together. Where no bricks tell light from what is
 * painted there, more is no light.
 */
const mostUntold = 300;

/**
 * Take slow changes of light out of a picture, brick by brick.
 *
 * @param raster - Level; left as it is unless told.
 * @param picture - What is known of it.
 * @returns The picture in even light, how uneven it was, and warnings.
 */
export function evenPicture(raster: Raster, picture: PictureToEven): EvenPicture {
  const { meets, lattice, even, inPlace = false } = picture;
  if (!even) return { raster, light: null, warnings: [] };
  const most = lattice === null ? mostUntold : Infinity;
  const { shadowed, ...evened } = evenLight(raster, {
    along: { x: !meets.x, y: !meets.y },
    ...{ most, inPlace },
    ...(lattice === null ? { unit: { x: null, y: null }, joints: null } : lay(lattice, picture)),
  });
  const { lightest, darkest } = evened;
  const strengthPercent = toFigures(evened.strengthPercent, 3);
  const strong = strengthPercent > mostStrength;
  const left = evened.strengthPercent > most;
  const warnings: Warning[] = [];
  if (strong) {
    const times = (1 + strengthPercent / 100).toFixed(1);
    const what = left
      ? 'too much for light alone, and is left'
      : 'noise may show where it was darkest';
    const message = `the photo is ${times} times as light at its ${lightest ?? ''} as at its ${darkest ?? ''}: ${what}`;
    warnings.push({ code: 'uneven-light', message });
  }
  if (left) return { raster, light: null, warnings };
  if (shadowed > 0) {
    const message = `a hard shadow lies over about ${Math.round(100 * shadowed)} % of the photo, and is left: it will repeat with the tile; photograph the wall under cloud, or crop to one side of the shadow`;
    warnings.push({ code: 'hard-shadow', message });
  }
  return { raster: evened.raster, light: { strengthPercent, lightest, darkest }, warnings };
}

function lay(
  lattice: Lattice,
  picture: PictureToEven,
): Pick<Parameters<typeof evenLight>[1], 'unit' | 'joints'> {
  const { brick, ...joints } = layJoints(lattice, picture);
  const { axis, course } = joints;
  const across = brick ?? 2 * course;
  return { unit: axis === 'y' ? { x: across, y: course } : { x: course, y: across }, joints };
}
