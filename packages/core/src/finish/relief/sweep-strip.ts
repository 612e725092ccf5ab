import type { ReliefShape, ShadedPiece, ShadeStop } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Bend, type BendPlace, placesOf } from './bend.js';
import type { LitStrip, ReliefStrip } from './relief-strip.js';
import { shadeAt } from './shade-at.js';

// What changes from top to foot is drawn in steps of about a dot.
const step = 0.05;
const mostSteps = 8;
// Of shade: what no eye tells.
const unseen = 0.004;
// Where a line comes back as light as it went, one gradient does for both ways.
const alike = 0.02;

/**
 * Find where something that lies on a bent piece is on the page.
 *
 * @param place - Along the bend.
 * @param below - How far it lies below the section's top.
 * @param depth - Of the section: its middle lies on the bend.
 * @returns The point.
 */
export function onBend(place: BendPlace, below: number, depth: number): PerAxis<number> {
  const { x, y, down } = place;
  const off = below - depth / 2;
  return { x: x + off * down.x, y: y + off * down.y };
}

/** A bent piece, as far as what lies along it asks. */
interface BentPiece {
  readonly bend: Bend;
  readonly depth: number;
}

/**
 * Draw a strip of a bent piece: every bit of it lit as it lies.
 *
 * @param strip - What to draw.
 * @param piece - What it is bent along, and how deep it is.
 * @param light - Towards the light.
 * @returns A shape, or none where nothing is seen of it.
 */
export function sweepStrip(
  strip: ReliefStrip,
  piece: BentPiece,
  light: PerAxis<number>,
): ReliefShape[] {
  const { bend, depth } = piece;
  const places = placesOf(bend, strip);
  const seen = places.map((place) => strip.lit(asItLies(light, place)));
  const height = Math.max(...seen.map(({ y0, y1 }) => y1 - y0));
  if (!(height > 0)) return [];
  const isEven = seen.every(({ top, foot }) => Math.abs(top - foot) < unseen);
  const count = isEven ? 1 : Math.min(mostSteps, Math.max(2, Math.ceil(height / step)));
  const pieces = Array.from({ length: count }, (_, i) => {
    const [from, middle, to] = [i / count, (i + 0.5) / count, (i + 1) / count];
    const stations = places.map((place, k): Station => {
      const lit = seen[k] ?? nothing;
      const { x, y } = onBend(place, heightAt(lit, middle), depth);
      return {
        above: onBend(place, heightAt(lit, from), depth),
        below: onBend(place, heightAt(lit, to), depth),
        at: x * light.x + y * light.y,
        shade: lit.top + middle * (lit.foot - lit.top),
      };
    });
    return shadePieces(stations, light);
  }).flat();
  const shown = pieces.filter(({ stops }) => stops.some(({ shade }) => Math.abs(shade) >= unseen));
  return shown.length === 0 ? [] : [{ kind: 'shape', pieces: shown }];
}

const nothing: LitStrip = { y0: 0, y1: 0, top: 0, foot: 0 };

function heightAt({ y0, y1 }: LitStrip, share: number): number {
  return y0 + share * (y1 - y0);
}

function asItLies(light: PerAxis<number>, { down }: BendPlace): PerAxis<number> {
  return { x: light.x * down.y - light.y * down.x, y: light.x * down.x + light.y * down.y };
}

interface Station {
  readonly above: PerAxis<number>;
  readonly below: PerAxis<number>;
  // How far towards the light.
  readonly at: number;
  readonly shade: number;
}

// How light an edge is follows from its normal, and along a bend that turns one way the normal follows from
// how far a place lies towards the light: both change by the same part of the bend's direction. So one
// gradient towards the light shades a bend exactly, up to where that direction turns back.
function shadePieces(stations: readonly Station[], light: PerAxis<number>): readonly ShadedPiece[] {
  const shades = stations.map(({ shade }) => shade);
  if (Math.max(...shades) - Math.min(...shades) < unseen) {
    return [toPiece(stations, light, [{ at: 0, shade: shades[0] ?? 0 }])];
  }
  const runs: Run[] = [];
  for (const run of oneWay(stations)) {
    const last = runs.at(-1);
    const stops = run.map(({ at, shade }) => ({ at, shade })).sort((a, b) => a.at - b.at);
    if (last !== undefined && areAlike(last.stops, stops)) {
      const isWider = spanOf(stops) > spanOf(last.stops);
      runs[runs.length - 1] = {
        stations: [...last.stations, ...run.slice(1)],
        stops: isWider ? stops : last.stops,
      };
    } else runs.push({ stations: run, stops });
  }
  return runs.map(({ stations: run, stops }) => toPiece(run, light, thinned(stops)));
}

interface Run {
  readonly stations: readonly Station[];
  readonly stops: readonly ShadeStop[];
}

function oneWay(stations: readonly Station[]): readonly (readonly Station[])[] {
  const runs: Station[][] = [];
  let way = 0;
  stations.forEach((station, i) => {
    const before = stations[i - 1];
    const by = before === undefined ? 0 : station.at - before.at;
    const turn = Math.abs(by) < 1e-9 ? 0 : Math.sign(by);
    const run = runs.at(-1);
    if (run === undefined || (turn !== 0 && way !== 0 && turn !== way)) {
      runs.push(before === undefined ? [station] : [before, station]);
      way = turn;
      return;
    }
    run.push(station);
    if (turn !== 0) way = turn;
  });
  return runs;
}

function spanOf(stops: readonly ShadeStop[]): number {
  return (stops.at(-1)?.at ?? 0) - (stops[0]?.at ?? 0);
}

function areAlike(one: readonly ShadeStop[], other: readonly ShadeStop[]): boolean {
  const [narrow, wide] = spanOf(one) < spanOf(other) ? [one, other] : [other, one];
  return narrow.every(({ at, shade }) => Math.abs(shadeAt(wide, at) - shade) < alike);
}

// As few as say the same.
function thinned(stops: readonly ShadeStop[]): readonly ShadeStop[] {
  const last = stops.at(-1);
  const kept: ShadeStop[] = [];
  for (let from = 0; from < stops.length - 1;) {
    const start = stops[from];
    if (start === undefined) break;
    kept.push(start);
    let to = from + 1;
    while (to + 1 < stops.length && isStraight(stops, from, to + 1)) to++;
    from = to;
  }
  return last === undefined ? kept : [...kept, last];
}

function isStraight(stops: readonly ShadeStop[], from: number, to: number): boolean {
  const ends = [stops[from], stops[to]].filter((stop) => stop !== undefined);
  return stops
    .slice(from + 1, to)
    .every(({ at, shade }) => Math.abs(shadeAt(ends, at) - shade) < unseen / 2);
}

function toPiece(
  stations: readonly Station[],
  toward: PerAxis<number>,
  stops: readonly ShadeStop[],
): ShadedPiece {
  const points = [
    ...stations.map(({ above }) => above),
    ...stations.toReversed().map(({ below }) => below),
  ];
  return { loops: [Float64Array.from(points.flatMap(({ x, y }) => [x, y]))], toward, stops };
}
