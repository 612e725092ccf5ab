import { layLedges } from './lay-ledges.js';
import { listLayers } from './layers/list-layers.js';
import type { PlaceDots, RowVeil } from './paint-row.js';
import { rowNoise, type WeatherRow, type WeatherSite } from './site.js';
import { clearVeil, coatAt, createVeil, type Veil, veilStep } from './veil.js';

/** How places lie in a wall's dots. */
interface RowsOfPlaces {
  /** Dots from one to the next. */
  readonly places: PlaceDots;
  /** Millimetres of the wall to a dot, down. */
  readonly mmPerDot: number;
}

/**
 * Open what lies over a wall: veils of two rows of places are held, and every row of dots lies between two.
 *
 * @param site - With its layers.
 * @param rows - Of its places.
 * @returns What gives that of a row of dots, by its number from the datum; what it gave before is lost.
 */
export function openVeils(site: WeatherSite, rows: RowsOfPlaces): (y: number) => RowVeil {
  const { places, mmPerDot } = rows;
  const { count } = site.run;
  const layAt = openLayers(site);
  const lay = (number: number, veil: Veil): void => {
    clearVeil(veil);
    layAt((number * places + 0.5) * mmPerDot, veil);
    tellJoints(veil);
  };
  let above = createVeil(count);
  let below = createVeil(count);
  const line = new Float32Array(veilStep * count);
  const between = {
    bricks: new Float32Array((veilStep * (count - 1) * places) / 2),
    joints: new Float32Array(veilStep * count),
  };
  let held = NaN;
  let mixed = NaN;
  return (y) => {
    const number = Math.floor(y / places);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else lay(number, above);
      lay(number + 1, below);
      // Joints are narrow: no finer step is seen than from one row of places to the next.
      const share = (places - 1) / 2 / places;
      mixDown(between.joints, { above: above.joints, below: below.joints, share });
      held = number;
    }
    // For two rows at a time, half way between them: finer steps are not seen.
    const pair = Math.floor(y / 2);
    if (pair !== mixed) {
      const share = (2 * pair + 0.5 - number * places) / places;
      mixDown(line, { above: above.bricks, below: below.bricks, share });
      mixAcross(between.bricks, line, places);
      mixed = pair;
    }
    return between;
  };
}

function openLayers(site: WeatherSite): (y: number, veil: Veil) => void {
  const { count } = site.run;
  const layers = listLayers(site);
  const findLedges = layLedges(site);
  const dirt = rowNoise(site, { id: 11, cell: 1400, count: 5, gain: 0.65 });
  const around = {
    fall: new Float32Array(count),
    rise: new Float32Array(count),
    end: new Float32Array(count),
    mended: new Float32Array(count),
  };
  return (y, veil) => {
    around.mended.fill(0);
    const { leastFall, leastRise } = findLedges(y, around);
    const { fall, rise, end, mended } = around;
    const row: WeatherRow = { y, fall, rise, leastFall, leastRise, end, dirt: dirt(y), mended };
    for (const layer of layers) layer(row, veil);
  };
}

// Of joints, how they differ from bricks, which is not to be told through a coat.
function tellJoints({ bricks, joints }: Veil): void {
  for (let at = 0; at < joints.length; at += veilStep) {
    const bare = 1 - bricks[at + coatAt]!;
    joints[at] = bare * (joints[at]! - bricks[at]!);
    joints[at + 1] = bare * (joints[at + 1]! - bricks[at + 1]!);
    joints[at + 2] = bare * (joints[at + 2]! - bricks[at + 2]!);
    joints[at + 3] = bare * (joints[at + 3]! - bricks[at + 3]!);
    joints[at + 4] = bare * (joints[at + 4]! - bricks[at + 4]!);
    joints[at + 5] = bare * (joints[at + 5]! - bricks[at + 5]!);
  }
}

interface VeilPair {
  readonly above: Float32Array;
  readonly below: Float32Array;
  readonly share: number;
}

// Number by number: in a loop of its own for each it takes three times as long.
function mixDown(out: Float32Array, { above, below, share }: VeilPair): void {
  for (let i = 0; i < out.length; i += veilStep) {
    out[i] = above[i]! + share * (below[i]! - above[i]!);
    out[i + 1] = above[i + 1]! + share * (below[i + 1]! - above[i + 1]!);
    out[i + 2] = above[i + 2]! + share * (below[i + 2]! - above[i + 2]!);
    out[i + 3] = above[i + 3]! + share * (below[i + 3]! - above[i + 3]!);
    out[i + 4] = above[i + 4]! + share * (below[i + 4]! - above[i + 4]!);
    out[i + 5] = above[i + 5]! + share * (below[i + 5]! - above[i + 5]!);
    out[i + 6] = above[i + 6]! + share * (below[i + 6]! - above[i + 6]!);
  }
}

// For two dots at a time, half way between them.
function mixAcross(out: Float32Array, line: Float32Array, places: PlaceDots): void {
  const apart = (places / 2) * veilStep;
  for (let pair = 0; pair < apart; pair += veilStep) {
    layPairs(out.subarray(pair), line, { apart, share: (0.5 + (pair / veilStep) * 2) / places });
  }
}

interface PairsToLay {
  readonly apart: number;
  readonly share: number;
}

function layPairs(out: Float32Array, line: Float32Array, { apart, share }: PairsToLay): void {
  for (let i = 0, to = 0; to < out.length; i += veilStep, to += apart) {
    out[to] = line[i]! + share * (line[i + 8]! - line[i]!);
    out[to + 1] = line[i + 1]! + share * (line[i + 9]! - line[i + 1]!);
    out[to + 2] = line[i + 2]! + share * (line[i + 10]! - line[i + 2]!);
    out[to + 3] = line[i + 3]! + share * (line[i + 11]! - line[i + 3]!);
    out[to + 4] = line[i + 4]! + share * (line[i + 12]! - line[i + 4]!);
    out[to + 5] = line[i + 5]! + share * (line[i + 13]! - line[i + 5]!);
    out[to + 6] = line[i + 6]! + share * (line[i + 14]! - line[i + 6]!);
  }
}
