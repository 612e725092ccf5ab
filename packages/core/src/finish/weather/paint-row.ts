import { openKernel } from '../../numeric/open-kernel.js';
import type { Raster } from '../../raster/raster.js';
import type { VeilsAround } from './open-veils.js';
import { paintCode } from './paint-code.js';
import type { PlaceDots } from './open-places.js';
import { type Colour, veilStep } from './veil.js';
import type { BrickMiddles, RepeatedPicture } from './vary-bricks.js';

/** Pixels of a wall, made ready. */
export interface WallDots {
  /**
   * Of each pixel red, green and blue, encoded in sRGB, 0 to 1, and how like a joint or a hollow it is, 0 to 1: side
   * by side, as they are worked on at once.
   */
  readonly dots: Float32Array;
  /** Which brick each pixel is of, row by row: 0 for none. */
  readonly labels: Int32Array;
}

/** What {@link WallDots} of a row are made from. */
export interface WallLight {
  /** Of the picture, in linear light. */
  readonly planes: Raster['planes'];
  /** How like a joint or a hollow each pixel is, 0 to 1. */
  readonly joints: Float32Array;
  /** Which brick each is of, or null where none are known. */
  readonly labels: Uint16Array | Int32Array | null;
}

/** A picture of a wall, made ready. */
export interface WallPicture extends RepeatedPicture {
  /** Its pixels, as a row is painted with them; or as they are, where each is painted once. */
  readonly pixels: WallDots | WallLight;
  /** Its bricks, or null where none are known. */
  readonly bricks: BrickMiddles | null;
  /** What it fades to, encoded. */
  readonly faded: Colour;
}

/** Colours of a row: 0 to 1, or bytes, to which they were rounded as they were made. */
export type Colours = Float32Array | Uint8Array;

/** How large the rows are that are painted. */
export interface RowsToPaint {
  /** Dots, from a place on to another. */
  readonly width: number;
  /** Of those, the first that is wanted. */
  readonly from: number;
  /** And how many. */
  readonly wanted: number;
  /** Whether they are made as bytes. */
  readonly bare: boolean;
  /** Dots of a place. */
  readonly places: PlaceDots;
  /** Pixels of the picture's row. */
  readonly pixels: number;
  /** Whether units may be toned, so that a row has dots of its own. */
  readonly isToned: boolean;
  /** Numbers of bricks, copy by copy. */
  readonly bricks: number;
  /** What the picture fades to. */
  readonly faded: Colour;
}

/** Dots of a row that one copy of the picture shows. */
export interface PaintedRun {
  /** The first of them. */
  readonly from: number;
  /** The one after the last. */
  readonly to: number;
  /** Which pixel the first shows. */
  readonly pixel: number;
  /** Where the numbers of its copy's bricks begin. */
  readonly brick: number;
}

/** What rows are painted with, and what paints them. */
export interface Painter {
  /** The picture's row: filled by whoever has it painted. */
  readonly picture: WallDots;
  /** The same dot by dot, as it is toned; of none where nothing is. */
  readonly toned: WallDots;
  /** How much each brick takes, copy by copy, by its number: filled likewise. */
  readonly shares: Float32Array;
  /** How much each dot takes: filled likewise. */
  readonly grain: Float32Array;
  /** Room for two rows of places, to lie over the row. */
  readonly rows: readonly [Float32Array, Float32Array];
  /**
   * Takes from joints of such a row what they have in common with bricks, for how they differ is not to be told through
   * a coat; and colours what is faded.
   */
  readonly tell: (row: Float32Array) => void;
  /** What is painted: RGBRGB…, from the first dot that is wanted to the last. */
  readonly painted: Colours;
  /** Paints runs of one of those rows, from left to right, under two of places. */
  readonly paint: (under: WallDots, runs: readonly PaintedRun[], veils: VeilsAround) => void;
}

/**
 * Open what paints rows: each dot takes as much of what lies over it as its grain and its brick say, and the more the
 * thicker a coat lies on it; which is never more than all. What is painted is encoded in sRGB, 0 to 1; or rounded to
 * bytes and clipped, to what the former are rounded to afterwards.
 *
 * @param size - Of the rows.
 * @returns It.
 */
export function openPainter(size: RowsToPaint): Painter {
  const { width, from, bare, places, pixels, isToned } = size;
  const count = width / places + 1;
  const veil = veilStep * count;
  const { calls, room } = openKernel<'tell' | 'mix' | 'paint', RoomName>(paintCode, {
    dots: 4 * pixels,
    labels: pixels,
    tonedDots: isToned ? 4 * width : 0,
    tonedLabels: isToned ? width : 0,
    shares: size.bricks,
    grain: width,
    faded: 4,
    above: veil,
    below: veil,
    between: veil,
    painted: 3 * width,
  });
  const { shares, grain, above, below, between, faded } = room;
  faded.set(size.faded);
  // From a whole word on what is wanted is copied fastest.
  const first = room.painted.byteOffset + (bare ? (8 - ((3 * from) % 8)) % 8 : 0);
  const dotBytes = bare ? 3 : 12;
  const [start, length] = [first + dotBytes * from, 3 * size.wanted];
  const { buffer } = room.painted;
  return {
    picture: { dots: room.dots, labels: toLabels(room.labels) },
    toned: { dots: room.tonedDots, labels: toLabels(room.tonedLabels) },
    shares,
    grain,
    rows: [above, below],
    tell: (row) => {
      calls.tell(row.byteOffset, row.byteOffset + row.byteLength, faded.byteOffset);
    },
    painted: bare ? new Uint8Array(buffer, start, length) : new Float32Array(buffer, start, length),
    paint: ({ dots, labels }, runs, veils) => {
      const end = between.byteOffset + between.byteLength;
      const { share } = veils;
      calls.mix(between.byteOffset, veils.above.byteOffset, veils.below.byteOffset, share, end);
      for (const run of runs) {
        calls.paint(
          first + dotBytes * run.from,
          bare ? 1 : 0,
          dots.byteOffset + 16 * run.pixel,
          labels.byteOffset + 4 * run.pixel,
          shares.byteOffset + 4 * run.brick,
          grain.byteOffset + 4 * run.from,
          between.byteOffset + 4 * veilStep * Math.floor(run.from / places),
          run.from,
          run.to,
          places,
        );
      }
    },
  };
}

type RoomName =
  | 'dots'
  | 'labels'
  | 'tonedDots'
  | 'tonedLabels'
  | 'shares'
  | 'grain'
  | 'faded'
  | 'above'
  | 'below'
  | 'between'
  | 'painted';

function toLabels({ buffer, byteOffset, length }: Float32Array): Int32Array {
  return new Int32Array(buffer, byteOffset, length);
}
