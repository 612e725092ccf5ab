import { outOfRange } from '../../errors/out-of-range.js';
import { keepMean } from '../../raster/keep-mean.js';
import type { Raster } from '../../raster/raster.js';
import { transposeRaster } from '../../raster/transpose-raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { countCopies, takeCopy } from './count-copies.js';
import { findOddAround } from './find-odd-around.js';
import { findOrdinary, type Place } from './find-ordinary.js';
import { layPatch } from './lay-patch.js';
import type { Window } from './take-window.js';
import { seeMortar } from '../mend/see-mortar.js';
import type { Joints } from '../mend/see-joints.js';
import type { OddPlace } from '../odd/to-odd-place.js';

/** How a tile is to be calmed. */
export interface CalmOptions {
  /** Bond repeats in the tile along each axis, or null where nothing repeats. */
  readonly repeats: PerAxis<number | null>;
  /** Where its courses lie, in its pixels, or null where it has none. */
  readonly joints: Joints | null;
  /** Along which axis it repeats; `both` unless told. */
  readonly axis?: 'x' | 'y' | 'both';
  /** Largest share of the tile that may be replaced, in per cent; 10 unless told. */
  readonly most?: number;
}

/** A place that was replaced. */
export interface CalmedPlace extends OddPlace {
  /** The left and top edge of what took its place. */
  readonly from: PerAxis<number>;
}

/** A tile in which less catches the eye. */
export interface CalmedTile {
  /** The tile; the same where nothing was odd. */
  readonly raster: Raster;
  /** What was replaced, in the order of its oddness; in the first of several copies. */
  readonly swapped: readonly CalmedPlace[];
  /** What is still odd: nothing ordinary fitted there, or enough was replaced. */
  readonly left: readonly OddPlace[];
}

const rounds = 3;
// Less than this share of its oddness must be left of a place that was replaced.
const mostLeft = 0.75;
// Of its smaller side, on every side.
const rimShare = 0.2;

/**
 * Replace what would catch the eye each time a tile repeats: a brick by another of the same face from
 * elsewhere in it, cut in the joints; where there are no courses, a piece by one that fits there. Of a
 * tile that holds the same several times one copy is looked at, and all are calmed alike.
 *
 * @param tile - That repeats, in linear light; left as it is.
 * @param options - What is known of it.
 * @returns The tile, as light as before, and what was done.
 * @throws RangeError when `most` is not above 0 to 100.
 */
export function calmTile(tile: Raster, options: CalmOptions): CalmedTile {
  const { most = 10 } = options;
  if (!(most > 0 && most <= 100)) throw outOfRange('above 0 to 100 per cent', 'most', most);
  const likeness = options.joints && mortarOf(tile, options.joints);
  let raster = tile;
  const wrap = wrapOf(options);
  const copies = countCopies(tile);
  let left = findOddAround(takeCopy(tile, copies), wrap);
  const swapped: CalmedPlace[] = [];
  const enough = ((most / 100) * tile.width * tile.height) / (copies.x * copies.y);
  for (let round = 0; round < rounds && left.length > 0; round++) {
    const before = raster;
    for (const odd of left) {
      if (areaOf([...swapped, odd]) > enough) continue;
      const calmed = replace(raster, { odd, likeness, others: left, copies }, options);
      if (calmed === null) continue;
      raster = calmed.raster;
      swapped.push({ ...odd, from: calmed.from });
    }
    if (raster === before) break;
    left = findOddAround(takeCopy(raster, copies), wrap);
  }
  if (raster !== tile) keepMean(tile, raster);
  return { raster, swapped, left };
}

function wrapOf({ axis = 'both' }: CalmOptions): PerAxis<boolean> {
  return { x: axis !== 'y', y: axis !== 'x' };
}

function areaOf(places: readonly OddPlace[]): number {
  return places.reduce((sum, { width, height }) => sum + width * height, 0);
}

function mortarOf(tile: Raster, joints: Joints): Float32Array {
  const upright = joints.axis === 'x';
  const level = upright ? transposeRaster(tile) : tile;
  const count = Math.max(1, Math.round(level.height / joints.course));
  const { likeness } = seeMortar(level, { course: level.height / count, offset: joints.offset });
  if (!upright) return likeness;
  const { width, height } = tile;
  const out = new Float32Array(likeness.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) out[y * width + x] = likeness[x * height + y]!;
  }
  return out;
}

// What is odd, and around it room for a border: up to the joints of the bricks that it touches.
function placeAround(tile: Raster, odd: Window, options: CalmOptions): Place | null {
  const { x: across, y: down } = roomAround(odd, options.joints);
  const outer = {
    x: odd.x - across,
    y: odd.y - down,
    width: odd.width + 2 * across,
    height: odd.height + 2 * down,
  };
  // Its rim is less odd, but goes with it.
  const rim = Math.round(rimShare * Math.min(odd.width, odd.height));
  const core = {
    x: odd.x - rim,
    y: odd.y - rim,
    width: odd.width + 2 * rim,
    height: odd.height + 2 * rim,
  };
  return fits(outer, tile, options) ? { core, outer } : null;
}

function roomAround({ width, height }: Window, joints: Joints | null): PerAxis<number> {
  if (joints === null) {
    const free = Math.round(0.6 * Math.max(8, Math.min(width, height)));
    return { x: free, y: free };
  }
  const along = Math.ceil(0.8 * joints.course);
  const across = Math.ceil(0.8 * (joints.brick ?? 2 * joints.course));
  return joints.axis === 'x' ? { x: along, y: across } : { x: across, y: along };
}

function fits(outer: Window, tile: Raster, { axis = 'both' }: CalmOptions): boolean {
  if (2 * outer.width > tile.width && 2 * outer.height > tile.height) return false;
  if (outer.width > tile.width || outer.height > tile.height) return false;
  // Where it does not repeat, nothing goes on around its end.
  if (axis === 'y') return outer.x >= 0 && outer.x + outer.width <= tile.width;
  return axis === 'both' || (outer.y >= 0 && outer.y + outer.height <= tile.height);
}

interface Replacement {
  readonly odd: OddPlace;
  readonly likeness: Float32Array | null;
  readonly others: readonly OddPlace[];
  readonly copies: PerAxis<number>;
}

function replace(
  tile: Raster,
  { odd, likeness, others, copies }: Replacement,
  options: CalmOptions,
): { readonly raster: Raster; readonly from: PerAxis<number> } | null {
  const { repeats } = options;
  const one = takeCopy(tile, copies);
  const place = placeAround(one, odd, options);
  if (place === null) return null;
  const wrap = wrapOf(options);
  const shifts = findOrdinary(one, place, {
    step: { x: stepOf(tile.width, repeats.x), y: stepOf(tile.height, repeats.y) },
    wrap,
    odd: others,
  });
  // What does not lie over an end is found without looking there.
  const over = odd.x + odd.width > one.width || odd.y + odd.height > one.height;
  const around = { x: wrap.x && over, y: wrap.y && over };
  for (const shift of shifts) {
    const raster = { ...tile, planes: copyOf(tile) };
    for (const by of placesOf(tile, copies)) {
      layPatch(raster, { place: moved(place, by), shift, likeness });
    }
    const found = findOddAround(takeCopy(raster, copies), around);
    if (saliencesNear(found, odd, one) > mostLeft * odd.salience) continue;
    const from = {
      x: (odd.x + shift.x) % one.width,
      y: (odd.y + shift.y) % one.height,
    };
    return { raster, from };
  }
  return null;
}

// Where each copy lies.
function placesOf({ width, height }: Raster, copies: PerAxis<number>): PerAxis<number>[] {
  return Array.from({ length: copies.x * copies.y }, (_, i) => ({
    x: Math.round(((i % copies.x) * width) / copies.x),
    y: Math.round((Math.floor(i / copies.x) * height) / copies.y),
  }));
}

function moved({ core, outer }: Place, by: PerAxis<number>): Place {
  const move = (window: Window): Window => ({ ...window, x: window.x + by.x, y: window.y + by.y });
  return { core: move(core), outer: move(outer) };
}

function copyOf({ planes }: Raster): Raster['planes'] {
  const [red, green, blue] = planes;
  return [red.slice(), green.slice(), blue.slice()];
}

function stepOf(length: number, repeats: number | null): number | null {
  return repeats === null || repeats < 1 ? null : length / repeats;
}

// How odd it still is about there.
function saliencesNear(found: readonly OddPlace[], odd: OddPlace, tile: Raster): number {
  const near = found.filter((one) => {
    const dx = Math.abs(one.x + one.width / 2 - odd.x - odd.width / 2);
    const dy = Math.abs(one.y + one.height / 2 - odd.y - odd.height / 2);
    return (
      Math.min(dx, tile.width - dx) < (one.width + odd.width) / 2 &&
      Math.min(dy, tile.height - dy) < (one.height + odd.height) / 2
    );
  });
  return Math.max(0, ...near.map(({ salience }) => salience));
}
