import type { Warning } from '../errors/warning.js';
import { holdsWhole } from '../seam/holds-whole.js';
import { unknownSeam } from '../seam/inspect-axis.js';
import type { SeamInspection } from '../seam/inspect-seams.js';
import { showsTwice } from '../seam/shows-twice.js';
import type { PerAxis } from '../surface/measurement.js';
import type { RepeatAxis } from './draw-seams.js';
import type { InspectedSurface } from './open-surface.js';

const leastHeld = 2;
const ways = { x: 'side by side', y: 'one above the other' } as const;

/**
 * Call no picture seamless along an axis along which it shows less than two courses or bricks, or of
 * whatever comes again in it: nothing inside tells how those go on. Where a course is known, whole ones do.
 *
 * @param seams - Of the picture.
 * @param surface - Its pixels, and its joints where they are known.
 * @param asked - Which way it is to repeat.
 * @returns The same, but unknown along such an axis, with a warning.
 */
export function heedPeriods(
  seams: SeamInspection,
  surface: InspectedSurface,
  asked: RepeatAxis,
): SeamInspection {
  const few = {
    x: seams.x.seamless && !tellsEnough(surface, 'x'),
    y: seams.y.seamless && !tellsEnough(surface, 'y'),
  };
  if (!few.x && !few.y) return seams;
  return {
    x: few.x ? unknownSeam : seams.x,
    y: few.y ? unknownSeam : seams.y,
    verdict: inWords(seams, few),
    warnings: [...seams.warnings, ...warn(few, asked)],
  };
}

function tellsEnough({ raster, lattice }: InspectedSurface, axis: 'x' | 'y'): boolean {
  const unit = lattice === null ? null : lattice.axis === axis ? lattice.course : lattice.brick;
  if (unit === null) return showsTwice(raster, axis);
  const length = axis === 'x' ? raster.width : raster.height;
  return length / unit >= leastHeld || holdsWhole(length, unit);
}

function inWords({ x, y }: SeamInspection, few: PerAxis<boolean>): string {
  if (few.x && few.y) return 'is too small to tell';
  const [told, untold] = few.x ? (['y', 'x'] as const) : (['x', 'y'] as const);
  const isSeamless = { x, y }[told].seamless;
  const how = isSeamless ? 'repeats without a seam' : 'shows a seam';
  return `${how} ${ways[told]}, ${isSeamless ? 'but' : 'and'} is too small to tell ${ways[untold]}`;
}

function warn(few: PerAxis<boolean>, asked: RepeatAxis): readonly Warning[] {
  const axes = asked === 'both' ? (['x', 'y'] as const) : [asked];
  return axes
    .filter((axis) => few[axis])
    .map((axis) => {
      const message = `the picture shows less than two of what comes again ${ways[axis]}: its ends meet, but nothing tells how that goes on`;
      return { code: 'too-small-to-tell', message };
    });
}
