import { wrapInto } from '../../numeric/wrap-into.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { takeWindow, type Window } from './take-window.js';

/** A place to be replaced. */
export interface Place {
  /** What must go. */
  readonly core: Window;
  /** As far as a border around it may run. */
  readonly outer: Window;
}

/** From where a place may be replaced. */
export interface Sources {
  /** Shifts that lay brick on brick of the same face, or null where any will do. */
  readonly step: PerAxis<number | null>;
  /** Whether what is taken may go on around the tile's end. */
  readonly wrap: PerAxis<boolean>;
  /** Places that are odd themselves. */
  readonly odd: readonly Window[];
}

// Shifts tried along an axis where any will do, and samples of a window along each side.
const tries = 24;
const samples = 40;
// What the piece itself differs from what is usual counts so much beside what its surroundings do.
const coreShare = 0.5;

/**
 * Find pieces of a tile that may take the place of another: they fit its surroundings and are
 * nothing out of the ordinary.
 *
 * @param tile - In linear light.
 * @param place - To be replaced.
 * @param sources - Where to look.
 * @returns Shifts from the place, the best first, three at most.
 */
export function findOrdinary(tile: Raster, place: Place, sources: Sources): PerAxis<number>[] {
  const { outer, core } = place;
  const every = Math.max(1, Math.floor(Math.max(outer.width, outer.height) / samples));
  const target = takeWindow(tile, outer);
  const usual = usualColour(tile);
  const found: { readonly shift: PerAxis<number>; readonly price: number }[] = [];
  for (const dx of shiftsAlong(tile.width, sources.step.x)) {
    for (const dy of shiftsAlong(tile.height, sources.step.y)) {
      const from = { ...outer, x: outer.x + dx, y: outer.y + dy };
      if (!mayTake(tile, from, core, sources)) continue;
      let price = 0;
      for (const [channel, plane] of tile.planes.entries()) {
        price += priceOf(plane, target[channel]!, {
          tile,
          place,
          from,
          every,
          usual: usual[channel]!,
        });
      }
      found.push({ shift: { x: dx, y: dy }, price });
    }
  }
  found.sort((one, other) => one.price - other.price);
  return found.slice(0, 3).map(({ shift }) => shift);
}

function shiftsAlong(length: number, step: number | null): number[] {
  const count = step === null ? tries : Math.max(1, Math.round(length / step));
  return Array.from({ length: count }, (_, i) => Math.round((i * length) / count));
}

function mayTake(tile: Raster, from: Window, core: Window, { wrap, odd }: Sources): boolean {
  const x = wrapInto(from.x, tile.width);
  const y = wrapInto(from.y, tile.height);
  if (!wrap.x && x + from.width > tile.width) return false;
  if (!wrap.y && y + from.height > tile.height) return false;
  return ![core, ...odd].some((place) => meets(from, place, tile));
}

function meets(one: Window, other: Window, tile: Raster): boolean {
  const dx = wrapInto(other.x - one.x, tile.width);
  const dy = wrapInto(other.y - one.y, tile.height);
  const across = dx < one.width || tile.width - dx < other.width;
  const down = dy < one.height || tile.height - dy < other.height;
  return across && down;
}

// Mean colour of the tile, in square roots of light.
function usualColour({ planes }: Raster): number[] {
  return planes.map((plane) => {
    const every = Math.max(1, Math.floor(plane.length / 4096));
    let [sum, count] = [0, 0];
    for (let i = 0; i < plane.length; i += every) {
      sum += Math.sqrt(Math.max(0, plane[i]!));
      count++;
    }
    return sum / count;
  });
}

interface Priced {
  readonly tile: Raster;
  readonly place: Place;
  readonly from: Window;
  readonly every: number;
  readonly usual: number;
}

// Mean square by which the surroundings differ, and by which the piece's own colour is unusual.
function priceOf(plane: Float32Array, target: Float32Array, priced: Priced): number {
  const { tile, place, from, every, usual } = priced;
  const { core, outer } = place;
  const [left, top] = [core.x - outer.x, core.y - outer.y];
  let [ring, ringCount, inside, insideCount] = [0, 0, 0, 0];
  for (let y = 0; y < outer.height; y += every) {
    const row = wrapInto(from.y + y, tile.height) * tile.width;
    const between = y >= top && y < top + core.height;
    for (let x = 0; x < outer.width; x += every) {
      const light = Math.sqrt(Math.max(0, plane[row + wrapInto(from.x + x, tile.width)]!));
      if (between && x >= left && x < left + core.width) {
        inside += light;
        insideCount++;
      } else {
        ring += (light - target[y * outer.width + x]!) ** 2;
        ringCount++;
      }
    }
  }
  const unusual = inside / Math.max(1, insideCount) - usual;
  return ring / Math.max(1, ringCount) + coreShare * unusual * unusual;
}
