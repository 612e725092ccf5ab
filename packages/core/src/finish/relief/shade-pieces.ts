import type { ShadedPiece, ShadeStop } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { unseen } from './pens.js';
import { shadeAt } from './shade-at.js';

// Where a line comes back as light as it went, one gradient does for both ways.
const alike = 0.02;

/** A place of a line that is shaded as it goes. */
export interface Station {
  /** One side of the line there. */
  readonly above: PerAxis<number>;
  /** The other. */
  readonly below: PerAxis<number>;
  /** How far towards the light, mm. */
  readonly at: number;
  /** From -1, black, to 1, white. */
  readonly shade: number;
}

/**
 * Shade a line from place to place. How light an edge is follows from its normal, and along a bend that turns one
 * way the normal follows from how far a place lies towards the light: both change by the same part of the
 * bend's direction. So one gradient towards the light shades a bend exactly, up to where that direction
 * turns back.
 *
 * @param stations - From one end to the other.
 * @param light - Towards the light.
 * @returns Pieces that meet, as few as show it.
 */
export function shadePieces(
  stations: readonly Station[],
  light: PerAxis<number>,
): readonly ShadedPiece[] {
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
