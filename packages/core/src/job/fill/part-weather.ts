import { edgesFacing, pastSides } from '../../fill/outline/edges-facing.js';
import { boxOfLoops } from '../../fill/outline/part-outline.js';
import type { Ledge } from '../../finish/weather/site.js';
import type { PerAxis } from '../../surface/measurement.js';
import { dpi as toDpi } from '../../units/units.js';
import type { WeatherOptions } from '../weather/weather-options.js';
import type { PartToWeather } from '../weather/weather-part.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import type { ReadOutline } from './read-outline.js';
import type { StringCourse, WallReliefReport } from './wall-relief-options.js';

/**
 * Tell how a part is weathered.
 *
 * @param cover - What is covered.
 * @param options - Of the fill.
 * @param lit - What of the wall is lit, or null.
 * @returns What of its own water runs from included.
 */
export function partWeather(
  cover: PartToCover,
  options: FillPhotoOptions & { readonly weather: WeatherOptions },
  lit: WallReliefReport | null,
): PartToWeather {
  const { part, outline } = cover;
  const { weather, scale, dpi = toDpi(600) } = options;
  const datum = part.datum ?? { x: 0, y: 0 };
  const ledges = ledgesOf(weather.ledges, outline && ownLedges(outline.shape, datum), lit);
  return {
    dpi,
    scale,
    weather: { ...weather, ...(ledges && { ledges }) },
    foot: datum.y + part.height,
  };
}

// What the part has of its own comes beside what is told, or beside the top of a plain wall.
function ledgesOf(
  told: readonly Ledge[] | undefined,
  drawn: readonly Ledge[] | null,
  lit: WallReliefReport | null,
): readonly Ledge[] | undefined {
  const courses = (lit?.stringCourses ?? []).map(courseLedge);
  if (drawn === null && courses.length === 0) return told;
  return [...(drawn ?? []), ...courses, ...(told ?? (drawn === null ? [levelLedge(0)] : []))];
}

// Longer than any wall of paper.
const far = 1e5;

function levelLedge(y: number): Ledge {
  return { from: { x: -far, y }, to: { x: far, y } };
}

// Water drips from the foot of what stands out.
function courseLedge({ y, height }: StringCourse): Ledge {
  return levelLedge(y + height);
}

// Of a shape that is drawn its own edges say where water runs from: its top, and sills under its windows.
function ownLedges(
  { loops, rule }: ReadOutline['shape'],
  datum: PerAxis<number>,
): readonly Ledge[] | null {
  const { x0, y0 } = boxOfLoops(loops);
  const onWall = loops.map((loop) =>
    loop.map((mm, i) => (i % 2 === 0 ? mm - x0 + datum.x : mm - y0 + datum.y)),
  );
  const edges = edgesFacing({ loops: onWall, rule }, 'up');
  return edges && pastSides(edges, boxOfLoops(onWall));
}
