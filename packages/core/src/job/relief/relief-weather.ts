import { outOfRange } from '../../errors/out-of-range.js';
import { edgesFacing } from '../../fill/outline/edges-facing.js';
import type { DrawnRelief } from '../../finish/relief/drawn-relief.js';
import type { Figure } from '../../finish/relief/profiles/profile.js';
import type { ReliefPlan } from '../../finish/relief/relief-plan.js';
import type { Ledge } from '../../finish/weather/site.js';
import { settleStrengths, type WeatherStrengths } from '../../finish/weather/strengths.js';
import { checkWeather, type WeatherOptions } from '../weather/weather-options.js';

/**
 * Settle how pieces in relief are weathered, before anything is read. Presets are of walls: what only masonry
 * has, salts and mended places, is laid where it is asked for by name, and damp where the piece stands.
 *
 * @param weather - As the caller gave it.
 * @returns The same, with every strength told.
 * @throws RangeError where something cannot be, or stands alone.
 */
export function settleReliefWeather(weather: WeatherOptions): WeatherOptions & WeatherStrengths {
  checkWeather(weather);
  const { damp, foot, salts = 0, patches = 0 } = weather;
  if (foot === undefined && damp !== undefined && damp > 0) {
    throw outOfRange('a foot beside it, for most pieces stand nowhere', 'damp', damp);
  }
  const settled = settleStrengths(weather);
  return { ...weather, ...settled, salts, patches, ...(foot === undefined && { damp: 0 }) };
}

// As good as at the foot, mm.
const near = 1e-6;
// Longer than any piece: rain runs from all of an edge.
const far = 1e5;
// Chords of a bent edge: as many as any eye tells.
const chords = 48;

/**
 * Take the edges of a piece as what water runs from and grime lies on, all but its foot.
 *
 * @param drawn - A piece.
 * @param plan - What it was drawn by.
 * @returns Ledges, mm of paper from its top left corner.
 */
export function edgeLedges(drawn: DrawnRelief, plan: ReliefPlan): readonly Ledge[] {
  const figure = plan.profile.figure?.(plan);
  return figure === undefined ? sectionLedges(drawn) : figureLedges(figure, plan);
}

// Of what is no section: its top and the sills of its openings, and what its panels drip from and hold.
function figureLedges({ faces }: Figure, { sizes, around }: ReliefPlan): readonly Ledge[] {
  const lowest = around > 0 ? Infinity : sizes.depth - near;
  const edges = faces.flatMap((face) => [
    ...(edgesFacing(face, 'up') ?? []),
    ...(edgesFacing(face, 'down') ?? []),
  ]);
  return edges.filter(({ from, to }) => Math.max(from.y, to.y) < lowest);
}

function sectionLedges(drawn: DrawnRelief): readonly Ledge[] {
  const { lines, outline, length, place } = drawn;
  const heights = lines.map(({ edge, y0, y1 }) => (edge.side === 'below' ? y0 : y1));
  const foot = Math.max(...heights);
  const edges = [0, ...heights.filter((y) => y > 0 && y < foot)];
  if (outline === null) {
    return edges.map((y) => ({ from: { x: -far, y }, to: { x: far, y } }));
  }
  return edges.flatMap((y) =>
    Array.from({ length: chords }, (_, i) => ({
      from: place((i * length) / chords, y),
      to: place(((i + 1) * length) / chords, y),
    })),
  );
}
