import { outOfRange } from '../../errors/out-of-range.js';
import { boxOfLoops } from '../../fill/outline/part-outline.js';
import { drawEdges, type RaisedOutline } from '../../finish/relief/draw-edges.js';
import { type BoundedArea, faceLoops } from '../../finish/relief/face-loops.js';
import { type Light, toLight } from '../../finish/relief/light-side.js';
import { leastLine } from '../../finish/relief/pens.js';
import { rectangle } from '../../finish/relief/profiles/flat-face.js';
import { type GroundMean, onGround } from '../../finish/relief/on-ground.js';
import { reliefFinish } from '../../finish/relief/relief-finish.js';
import { mapShades } from '../../finish/relief/map-shades.js';
import type { MakeFinish } from '../../raster/row-finish.js';
import type { PerAxis } from '../../surface/measurement.js';
import { mmPerInch, realMm, toPrint } from '../../units/units.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import { toFigures } from '../to-figures.js';
import type { StringCourse, WallRelief, WallReliefReport } from './wall-relief-options.js';

const usualRise = realMm(50);
const most = 1000;
// Of the real wall: further out is another wall.
const mostRise = 2000;

/**
 * Settle what of a wall is lit, before anything is read.
 *
 * @param options - As the caller gave them.
 * @returns It, or null where nothing is.
 * @throws RangeError where something makes no sense.
 */
export function settleWallRelief(options: FillPhotoOptions): WallReliefReport | null {
  const { relief, outline, svg } = options;
  if (relief === undefined) return null;
  const { stringCourses = [], isOpeningsLit = false, light = 'above', strength = 0.7 } = relief;
  checkUse(relief);
  stringCourses.forEach(checkCourse);
  refuseTouching(stringCourses);
  if (!(strength >= 0 && strength <= 1)) throw outOfRange('0 to 1', 'strength', strength);
  if (isOpeningsLit && outline === undefined) {
    throw outOfRange('an outline whose openings are lit', 'outline', undefined);
  }
  if (svg === 'pattern') throw outOfRange('baked, for relief does not repeat,', 'svg', svg);
  return { stringCourses, isOpeningsLit, light, strength };
}

// No word on what is not there.
function checkUse(relief: WallRelief): void {
  const { stringCourses = [], rise, isOpeningsLit = false } = relief;
  if (rise !== undefined && rise > mostRise)
    throw outOfRange(`up to ${mostRise} mm`, 'rise', `${rise} mm`);
  if (stringCourses.length > 0) return;
  if (rise !== undefined) throw outOfRange('a string course that stands out', 'rise', `${rise} mm`);
  if (isOpeningsLit) return;
  const [name = 'relief'] = Object.keys(relief);
  throw outOfRange('a string course, or openings, to be lit', name, 'nothing to light');
}

function checkCourse({ y, height }: StringCourse): void {
  if (height >= 2 * leastLine && height <= most && Math.abs(y) <= 100 * most) return;
  const wanted = `${2 * leastLine} to ${most} mm of paper from top to foot`;
  throw outOfRange(wanted, 'stringCourses', `${height} mm, ${y} mm below the datum`);
}

// Two lines of one print apart, or they read as one.
function refuseTouching(courses: readonly StringCourse[]): void {
  const sorted = courses.toSorted((a, b) => a.y - b.y);
  for (const [i, { y }] of sorted.entries()) {
    const above = sorted[i - 1];
    if (above === undefined || y - (above.y + above.height) >= leastLine) continue;
    const got = `${above.height} mm at ${above.y} mm, and another at ${y} mm`;
    throw outOfRange(`courses ${leastLine} mm of paper apart or more`, 'stringCourses', got);
  }
}

/** Lights a wall, once the mean of what it is made of is known, weathered or not. */
export type LightOn = (mean: GroundMean) => MakeFinish;

/**
 * Light a wall.
 *
 * @param relief - What of it.
 * @param cover - Which piece of it is filled.
 * @param options - The scale, and how far courses stand out.
 * @returns What is done to its rows, once it is known what they are made of.
 * @throws RangeError where something is too narrow for its lines.
 */
export function wallFinish(
  relief: WallReliefReport,
  cover: PartToCover,
  options: FillPhotoOptions,
): LightOn {
  const { stringCourses, isOpeningsLit, light, strength } = relief;
  const { part, outline } = cover;
  const { width, bleed, datum = { x: 0, y: 0 }, dpi } = part;
  const { ratio } = options.scale;
  const rise = toPrint(options.relief?.rise ?? usualRise, ratio);
  const edges = { light: toLight(light), margin: 0, holeMargin: 0, ratio };
  // Its ends lie past the bleed of either side.
  const past = (bleed ?? 0) + 1;
  const cast = castBy(rise, edges.light, options.weather !== undefined);
  for (const course of stringCourses)
    refuseBeyond(course, { ...part, datum, bleed: bleed ?? 0 }, cast);
  const courses = stringCourses.flatMap(({ y, height }) => {
    const loops = [rectangle(-past, y - datum.y, width + 2 * past, height)];
    const course: RaisedOutline = { loops, rule: 'nonzero', isSunk: false, rise };
    return drawEdges(course, { ...edges, named: 'stringCourses' });
  });
  if (outline !== null && isOpeningsLit) refuseWhole(atCorner(outline.shape));
  const openings =
    outline === null || !isOpeningsLit
      ? []
      : drawEdges(
          { ...atCorner(outline.shape), isSunk: false, rise: 0, only: 'openings' },
          { ...edges, named: 'outline' },
        );
  const marks = [...openings, ...courses].flatMap((mark) =>
    mapShades(mark, (shade) => shade * strength),
  );
  return (mean) => {
    const laid = onGround(marks, mean);
    return (page) => reliefFinish(laid, { ...page, perMm: dpi / mmPerInch });
  };
}

interface Reach {
  readonly above: number;
  readonly below: number;
}

// A shadow falls as far up or down as what casts it stands out; streaks run down to the ground.
function castBy(rise: number, { y }: Light, isWeathered: boolean): Reach {
  return { above: y > 0 ? rise : 0, below: isWeathered ? Infinity : y < 0 ? rise : 0 };
}

// One of which the part shows nothing, nor anything that it casts.
function refuseBeyond(
  { y, height }: StringCourse,
  part: { readonly height: number; readonly bleed: number; readonly datum: PerAxis<number> },
  { above, below }: Reach,
): void {
  const { datum, bleed } = part;
  const [top, foot] = [datum.y - bleed, datum.y + part.height + bleed];
  if (y - above < foot && y + height + below > top) return;
  const wanted = `a course within the part, which lies ${toFigures(datum.y, 4)} to ${toFigures(datum.y + part.height, 4)} mm below the datum,`;
  throw outOfRange(wanted, 'stringCourses', `${y},${height}`);
}

function refuseWhole(area: BoundedArea): void {
  if (faceLoops(area).some(({ isHole }) => isHole)) return;
  throw outOfRange('an outline with windows or doors in it', 'openings', 'none of them');
}

function atCorner({
  loops,
  rule,
}: Pick<RaisedOutline, 'loops' | 'rule'>): Pick<RaisedOutline, 'loops' | 'rule'> {
  const { x0, y0 } = boxOfLoops(loops);
  return { rule, loops: loops.map((loop) => loop.map((mm, i) => mm - (i % 2 === 0 ? x0 : y0))) };
}
