import { layLedges } from './lay-ledges.js';
import { listLayers } from './layers/list-layers.js';
import { rowNoise, type WeatherRow, type WeatherSite } from './site.js';
import { type Brush, tellJoints, toVeil, type Veil } from './veil.js';

/** How places lie in a wall's dots. */
interface RowsOfPlaces {
  /** Dots from one to the next. */
  readonly places: number;
  /** Millimetres of the wall to a dot, down. */
  readonly mmPerDot: number;
  /** Two rows of places, each as many numbers of a veil as it has places: filled with those around a row of dots. */
  readonly rows: readonly [Float32Array, Float32Array];
  /** What lays on them. */
  readonly brush: Brush;
}

/** Two rows of places, and how far from the first to the second a row of dots lies, 0 up to 1. */
export interface VeilsAround {
  /** On the row or above it. */
  readonly above: Float32Array;
  /** Below it. */
  readonly below: Float32Array;
  /** How far. */
  readonly share: number;
}

/**
 * Open what lies over a wall: veils of two rows of places are held, and every row of dots lies between two.
 *
 * @param site - With its layers.
 * @param given - Of its places.
 * @returns What gives those around a row of dots, by its number from the datum; what it gave before is lost.
 */
export function openVeils(site: WeatherSite, given: RowsOfPlaces): (y: number) => VeilsAround {
  const { places, mmPerDot, rows, brush } = given;
  const layAt = openLayers(site);
  const lay = (number: number, row: Float32Array): void => {
    const veil = toVeil(row, brush);
    layAt((number * places + 0.5) * mmPerDot, veil);
    tellJoints(veil);
  };
  let [above, below] = rows;
  let held = NaN;
  return (y) => {
    const number = Math.floor(y / places);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else lay(number, above);
      lay(number + 1, below);
      held = number;
    }
    return { above, below, share: y / places - number };
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
