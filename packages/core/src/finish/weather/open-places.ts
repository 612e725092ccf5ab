import { layLedges } from './lay-ledges.js';
import { listLayers } from './layers/list-layers.js';
import type { GivenSite } from './given-site.js';
import { hashCell } from './hash-cell.js';
import { rowNoise, type WeatherRow, type WeatherSite } from './site.js';
import { openVeil } from './veil.js';
import type { PerAxis } from '../../surface/measurement.js';

/** Dots from one place to the next, both ways: layers are reckoned at places and drawn straight between. */
export type PlaceDots = 2 | 4;

/** All that places under a page are reckoned from; nothing of it is seen in a picture of the wall. */
export interface PagePlaces {
  /** What is weathered, and how. */
  readonly given: GivenSite;
  /** Millimetres of the wall to a dot. */
  readonly mmPerDot: PerAxis<number>;
  /** Dots from the datum to the page's first column, of any sign. */
  readonly left: number;
  /** The same, to its first row. */
  readonly top: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Which of several walls it shows, from 0. */
  readonly past: number;
}

/** How places lie under a page: all of its dots between some of them. */
export interface PlaceGrid {
  /** Dots from one to the next. */
  readonly dots: PlaceDots;
  /** Number of the first column of them, counted from the datum. */
  readonly first: number;
  /** How many there are in a row. */
  readonly count: number;
  /** Number of the first row. */
  readonly top: number;
  /** Rows. */
  readonly rows: number;
  /** The wall as its layers know it. */
  readonly site: WeatherSite;
}

/**
 * Lay places under a page.
 *
 * @param page - Which.
 * @returns How they lie.
 */
export function gridOf(page: PagePlaces): PlaceGrid {
  const { given, mmPerDot, left, top, width, height, past } = page;
  const mm = Math.max(mmPerDot.x, mmPerDot.y);
  const dots = placeDots(mm);
  const first = Math.floor(left / dots);
  const count = Math.floor((left + width - 1) / dots) - first + 2;
  const row = Math.floor(top / dots);
  const seed = past === 0 ? given.seed : hashCell(past, 0, given.seed) | 0;
  const ground = { seed, period: given.period, finest: dots * mm };
  const run = { first, count, step: dots * mmPerDot.x, start: mmPerDot.x / 2 };
  return {
    dots,
    first,
    count,
    top: row,
    rows: Math.floor((top + height - 1) / dots) - row + 2,
    site: { ...given, ground, run },
  };
}

/**
 * Open the places of a page: what lies over them.
 *
 * @param page - Which.
 * @returns Gives those of a row by its number from the datum, as numbers of a veil, in an array that is used again; rows
 *   that follow one another are made fastest.
 */
export function openPlaces(page: PagePlaces): (row: number) => Float32Array {
  const { dots, count, site } = gridOf(page);
  const layers = listLayers(site);
  const findLedges = layLedges(site);
  const dirt = rowNoise(site, { id: 11, cell: 1400, count: 5, gain: 0.65 });
  const around = {
    fall: new Float32Array(count),
    rise: new Float32Array(count),
    end: new Float32Array(count),
    mended: new Float32Array(count),
  };
  const veil = openVeil(count);
  return (number) => {
    const y = (number * dots + 0.5) * page.mmPerDot.y;
    around.mended.fill(0);
    const { leastFall, leastRise } = findLedges(y, around);
    const { fall, rise, end, mended } = around;
    const row: WeatherRow = { y, fall, rise, leastFall, leastRise, end, dirt: dirt(y), mended };
    veil.bricks.fill(0);
    for (const layer of layers) layer(row, veil);
    return veil.bricks;
  };
}

// About as far on the wall at every scale, so that all scales show one weather.
function placeDots(mm: number): PlaceDots {
  return mm > 8 ? 2 : 4;
}
