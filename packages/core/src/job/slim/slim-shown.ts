import { type ColoursCompared, compareColours } from '../../colour/compare-colours.js';
import type { Samples } from '../../raster/average-samples.js';
import { type DotSpots, showByArea, showByHalves } from '../../raster/show-smaller.js';
import { spotsPerBlock } from './slim-spots.js';

/** What dots show of a picture over one ground, in the two ways that programs have. */
interface ShownOver {
  readonly area: Uint8Array;
  readonly halves: Uint8Array;
}

/** What dots show of a picture, over dark and over light ground where it is transparent. */
export interface Shown {
  /** Samples a dot: 1 grey or 3 colour. */
  readonly channels: number;
  /** Over each ground. */
  readonly over: readonly ShownOver[];
}

/**
 * What dots show of a picture.
 *
 * @param samples - The picture, or part of it.
 * @param dots - Where, in pixels of that part.
 * @returns Samples for each.
 */
export function showSamples(samples: Samples, dots: DotSpots): Shown {
  const { channels } = samples;
  const over = groundsOf(channels).map((ground): ShownOver => {
    const flat = flatten(samples, ground);
    return { area: showByArea(flat, dots), halves: showByHalves(flat, dots) };
  });
  return { channels: channels >= 3 ? 3 : 1, over };
}

/**
 * Put what several parts show one behind the other.
 *
 * @param parts - One or more.
 * @returns All of them.
 */
export function joinShown(parts: readonly Shown[]): Shown {
  const [first] = parts;
  if (first === undefined) throw new Error('a picture of no parts');
  const over = first.over.map((_, i) => ({
    area: joined(parts.flatMap((part) => part.over[i]?.area ?? [])),
    halves: joined(parts.flatMap((part) => part.over[i]?.halves ?? [])),
  }));
  return { channels: first.channels, over };
}

// What a coding loses comes on top of what the two ways differ by, and adds a quarter to it.
const asMuch = 1.25;

/** How different new pixels may show, as CIEDE2000. */
export interface MostDifference {
  /** In the mean of all that shows. */
  readonly mean: number;
  /** In the mean of any block of 8 x 8 dots that are looked at. */
  readonly worst: number;
}

/**
 * How different two pictures show, in that way and over that ground where they differ most.
 *
 * @param before - The one.
 * @param now - The other, at as many dots.
 * @param most - Where given: the two ways show the one picture itself differently, often by more than this; what
 *   the other shows by halves then counts for this much when it differs about as far as they do.
 * @returns In the mean, and block by block.
 */
export function compareShown(
  before: Shown,
  now: Shown,
  most: MostDifference | null,
): ColoursCompared {
  const options = { channels: before.channels, run: spotsPerBlock };
  const all = before.over.flatMap((was, i) => {
    const is = now.over[i];
    if (is === undefined) return [];
    const byHalves = compareColours(was.halves, is.halves, options);
    const own = most === null ? null : compareColours(was.area, was.halves, options);
    return [
      compareColours(was.area, is.area, options),
      most === null || own === null
        ? byHalves
        : {
            ...byHalves,
            mean: byHalves.mean * Math.min(1, most.mean / (asMuch * own.mean)),
            worst: byHalves.worst * Math.min(1, most.worst / (asMuch * own.worst)),
          },
    ];
  });
  const [worst] = all.toSorted((a, b) => b.worst - a.worst);
  if (worst === undefined) throw new Error('a picture over no ground');
  return { ...worst, mean: Math.max(...all.map(({ mean }) => mean)) };
}

// What is transparent shows what lies under it, dark or light.
function groundsOf(channels: number): readonly number[] {
  return channels === 2 || channels === 4 ? [0, 255] : [255];
}

function flatten(samples: Samples, ground: number): Samples {
  const { width, height, channels, data } = samples;
  if (channels === 1 || channels === 3) return samples;
  const colours = channels - 1;
  const out = new Uint8Array(width * height * colours);
  for (let from = 0, to = 0; from < data.length; from += channels) {
    const alpha = data[from + colours]! / 255;
    for (let c = 0; c < colours; c++) {
      out[to++] = Math.round(alpha * data[from + c]! + (1 - alpha) * ground);
    }
  }
  return { width, height, channels: colours, data: out };
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
