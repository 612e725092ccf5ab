import { wrapInto } from '../../numeric/wrap-into.js';
import {
  lanczosSteps as steps,
  lanczosTaps as taps,
  lanczosWeights as kernel,
} from '../../numeric/lanczos-taps.js';
import type { Raster } from '../../raster/raster.js';
import type { Cell } from './cell.js';
import type { Mosaic } from './mosaic.js';

/** Where a piece of a photo goes. */
export interface Paste {
  /** The piece, in pixels of the photo. */
  readonly from: Cell;
  /** Where it goes, in pixels of the tile; past an edge of that it comes in at the other. */
  readonly to: Cell;
  /** Pixels on each side of an edge over which it fades into its neighbour. */
  readonly fade: number;
}

/**
 * Lay a piece of a photo into a tile, stretched a little to fit, fading over its edges: pieces that
 * share an edge add up to one picture.
 *
 * @param mosaic - The tile; added to.
 * @param photo - In linear light. Past its edge the edge is held.
 * @param paste - From where to where.
 */
export function pasteCell(mosaic: Mosaic, photo: Raster, paste: Paste): void {
  const { raster: tile, shares } = mosaic;
  const { from, to, fade } = paste;
  const across = placeTaps(
    { start: to.left, end: to.right, length: tile.width },
    { start: from.left, end: from.right, length: photo.width },
    fade,
  );
  const down = placeTaps(
    { start: to.top, end: to.bottom, length: tile.height },
    { start: from.top, end: from.bottom, length: photo.height },
    fade,
  );
  // Photo rows in use, each brought to the piece's columns once.
  const lowest = down.samples.reduce((a, b) => Math.min(a, b), Infinity);
  const highest = down.samples.reduce((a, b) => Math.max(a, b), 0);
  const columns = across.places.length;
  const lines = new Float32Array((highest - lowest + 1) * columns);
  for (let channel = 0; channel < 3; channel++) {
    const source = photo.planes[channel]!;
    for (let row = lowest; row <= highest; row++) {
      gatherRow(source, row * photo.width, across, lines.subarray((row - lowest) * columns));
    }
    addRows(tile, channel, { lines, lowest, across, down });
  }
  for (let j = 0; j < down.places.length; j++) {
    const start = down.places[j]! * tile.width;
    const share = down.shares[j]!;
    for (let i = 0; i < columns; i++)
      shares[start + across.places[i]!]! += share * across.shares[i]!;
  }
}

interface Span {
  readonly start: number;
  readonly end: number;
  readonly length: number;
}

interface Taps {
  // Pixels of the tile.
  readonly places: Int32Array;
  // Six samples of the photo for each, and their weights.
  readonly samples: Int32Array;
  readonly weights: Float32Array;
  // Share of each pixel that is this piece's.
  readonly shares: Float32Array;
}

function placeTaps(to: Span, from: Span, fade: number): Taps {
  const first = Math.ceil(to.start - fade - 0.5);
  const last = Math.floor(to.end + fade - 0.5);
  const count = Math.max(0, last - first + 1);
  const places = new Int32Array(count);
  const samples = new Int32Array(count * taps);
  const weights = new Float32Array(count * taps);
  const shares = new Float32Array(count);
  const scale = (from.end - from.start) / (to.end - to.start);
  for (let i = 0; i < count; i++) {
    const at = first + i + 0.5;
    places[i] = wrapInto(first + i, to.length);
    shares[i] = rise((at - to.start) / fade) * rise((to.end - at) / fade);
    const exact = from.start + (at - to.start) * scale - 0.5;
    const whole = Math.floor(exact);
    const row = Math.round((exact - whole) * steps) * taps;
    for (let tap = 0; tap < taps; tap++) {
      samples[i * taps + tap] = Math.min(from.length - 1, Math.max(0, whole + tap - 2));
      weights[i * taps + tap] = kernel[row + tap]!;
    }
  }
  return { places, samples, weights, shares };
}

// From 0 at -1 to 1 at 1; what it gives here and its mirror add up to 1.
function rise(place: number): number {
  return place <= -1 ? 0 : place >= 1 ? 1 : (1 + place) / 2;
}

function gatherRow(source: Float32Array, start: number, across: Taps, out: Float32Array): void {
  const { samples, weights, places } = across;
  for (let i = 0, tap = 0; i < places.length; i++, tap += taps) {
    out[i] =
      source[start + samples[tap]!]! * weights[tap]! +
      source[start + samples[tap + 1]!]! * weights[tap + 1]! +
      source[start + samples[tap + 2]!]! * weights[tap + 2]! +
      source[start + samples[tap + 3]!]! * weights[tap + 3]! +
      source[start + samples[tap + 4]!]! * weights[tap + 4]! +
      source[start + samples[tap + 5]!]! * weights[tap + 5]!;
  }
}

interface Gathered {
  readonly lines: Float32Array;
  readonly lowest: number;
  readonly across: Taps;
  readonly down: Taps;
}

function addRows(tile: Raster, channel: number, gathered: Gathered): void {
  const { lines, lowest, across, down } = gathered;
  const plane = tile.planes[channel]!;
  const columns = across.places.length;
  for (let j = 0; j < down.places.length; j++) {
    const start = down.places[j]! * tile.width;
    const share = down.shares[j]!;
    for (let tap = 0; tap < taps; tap++) {
      const weight = share * down.weights[j * taps + tap]!;
      const line = (down.samples[j * taps + tap]! - lowest) * columns;
      if (weight === 0) continue;
      for (let i = 0; i < columns; i++) {
        plane[start + across.places[i]!]! += weight * across.shares[i]! * lines[line + i]!;
      }
    }
  }
}
