import type { Outline } from '../../drawing/dress/find-outlines.js';
import type { Drawing } from '../../drawing/drawing.js';
import { type Box, boxAround, shareOf } from '../../drawing/geometry/box.js';
import { followLines } from '../../drawing/outline/follow-shape.js';
import { edgesFacing, isInside, pastSides } from '../../fill/outline/edges-facing.js';
import { outlinesTouch, type TouchingOutline } from '../../fill/outline/outlines-touch.js';
import { boxOfLoops } from '../../fill/outline/part-outline.js';
import type { Ledge, WallPoint } from '../../finish/weather/site.js';
import type { Matrix } from '../../numeric/matrix.js';
import type { LaidOutline } from './dress-plan.js';
import { type Followed, followOutline, frameOf, inFrame, readLoops } from './follow-outline.js';
import type { WeatherPlaces } from '../weather/weather-places.js';

/** What of a drawing weather goes by. */
export interface DressPlaces {
  /** The drawing. */
  readonly drawing: Drawing;
  /** Outlines, or lines, that water runs from beside the walls' own edges. */
  readonly ledges: readonly Outline[];
  /** Outlines that `fixings` mean, or null. */
  readonly fixings: readonly Outline[] | null;
  /** How far below the datum walls stand on the ground, mm of paper; at the foot of each unless told. */
  readonly foot: number | undefined;
  /** Millimetres of paper to a dot. */
  readonly dot: number;
}

// Chords may be off by so much of the paper, mm: no one sees where a streak begins so closely.
const tolerance = 0.05;
// Outlines so near each other, mm of paper, are of one wall.
const joined = 0.3;

/**
 * Find where water runs from, what rusts and where the ground is, for each outline that is covered: those which
 * touch one another are one wall.
 *
 * @param laid - All that are covered.
 * @param options - The drawing, and what was told.
 * @returns By outline: mm of paper from the datum, along its courses and down.
 */
export function placeWeather(
  laid: readonly LaidOutline[],
  options: DressPlaces,
): ReadonlyMap<LaidOutline, WeatherPlaces> {
  const places = new Map<LaidOutline, WeatherPlaces>();
  for (const alike of byTurn(laid)) {
    const frame = frameOf(alike[0]!, options.dot);
    const seen = alike.map((one) => ({
      one,
      ...followOutline(one.outline, frame, { drawing: options.drawing, tolerance }),
    }));
    const ledges = options.ledges.map((one) => ledgesOf(one, frame, options.drawing));
    const fixings =
      options.fixings?.map((one) =>
        followOutline(one, frame, { drawing: options.drawing, tolerance }),
      ) ?? null;
    for (const wall of wallsOf(seen)) {
      const box = boxOfAll(wall);
      const near = <Marked extends Followed>(all: readonly Marked[]): Marked[] =>
        all.filter((one) => wall.some((part) => touches(one, part)));
      const found: WeatherPlaces = {
        ledges: [
          ...pastSides(upperEdges(wall), box),
          ...near(ledges).flatMap(({ edges }) => edges),
        ],
        fixings: fixings === null ? undefined : near(fixings).map((one) => middleOf(one.box)),
        foot: options.foot ?? box.y1,
      };
      for (const { one } of wall) places.set(one, found);
    }
  }
  return places;
}

function byTurn(laid: readonly LaidOutline[]): Iterable<readonly LaidOutline[]> {
  const frames = new Map<number, LaidOutline[]>();
  for (const one of laid) {
    const { turned } = one.lattice;
    const alike = frames.get(turned);
    if (alike === undefined) frames.set(turned, [one]);
    else alike.push(one);
  }
  return frames.values();
}

interface SeenOutline extends Followed {
  readonly one: LaidOutline;
}

function openLines(...told: Parameters<typeof followLines>): readonly Float64Array[] {
  return followLines(...told).map(({ points }) => points);
}

interface SeenLedge extends Followed {
  readonly shape: TouchingOutline;
  readonly edges: readonly Ledge[];
}

// Of what is filled its underside, of a line all of it.
function ledgesOf(outline: Outline, frame: Matrix, drawing: Drawing): SeenLedge {
  if (outline.fill !== 'none' && outline.element.name !== 'line') {
    const { shape, box } = followOutline(outline, frame, { drawing, tolerance });
    const top = { from: { x: box.x0, y: box.y1 }, to: { x: box.x1, y: box.y1 } };
    return { edges: edgesFacing(shape, 'down') ?? [top], shape, box };
  }
  const lines = inFrame(readLoops(outline, { drawing, tolerance }, openLines), frame);
  const edges = lines.flatMap((line) =>
    Array.from({ length: line.length / 2 - 1 }, (_, i) => ({
      from: { x: line[2 * i]!, y: line[2 * i + 1]! },
      to: { x: line[2 * i + 2]!, y: line[2 * i + 3]! },
    })),
  );
  const shape = { loops: lines, rule: outline.rule, isOpen: true };
  return { edges: edges.filter(({ from, to }) => from.x !== to.x), shape, box: boxOfLoops(lines) };
}

// Where one of its outlines goes on above another there is no edge.
function upperEdges(wall: readonly SeenOutline[]): readonly Ledge[] {
  return wall.flatMap((seen) => {
    const { x0, x1, y0 } = seen.box;
    const edges = edgesFacing(seen.shape, 'up') ?? [
      { from: { x: x0, y: y0 }, to: { x: x1, y: y0 } },
    ];
    return edges.filter(({ from, to }) => {
      const above = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 - joined };
      return !wall.some((other) => other !== seen && holds(other, above));
    });
  });
}

function holds({ shape, box }: Followed, { x, y }: WallPoint): boolean {
  const isNear = x >= box.x0 && x <= box.x1 && y >= box.y0 && y <= box.y1;
  return isNear && isInside(shape, { x, y });
}

// Most lie far apart, as their boxes tell at once.
function touches(a: Followed & Pick<SeenLedge, 'shape'>, b: Followed): boolean {
  const { x0, y0, x1, y1 } = shareOf(a.box, b.box);
  return x1 - x0 >= -joined && y1 - y0 >= -joined && outlinesTouch(a.shape, b.shape, joined);
}

function boxOfAll(wall: readonly SeenOutline[]): Box {
  return boxAround(
    wall.flatMap(({ box: { x0, y0, x1, y1 } }) => [
      { x: x0, y: y0 },
      { x: x1, y: y1 },
    ]),
  );
}

function middleOf({ x0, y0, x1, y1 }: Box): WallPoint {
  return { x: (x0 + x1) / 2, y: (y0 + y1) / 2 };
}

// Outlines that touch, or that others join, together.
function wallsOf(seen: readonly SeenOutline[]): readonly (readonly SeenOutline[])[] {
  const walls: SeenOutline[][] = [];
  const open = new Set(seen);
  for (const first of seen) {
    if (!open.delete(first)) continue;
    const wall = [first];
    for (const one of wall) {
      for (const other of open) {
        if (!touches(one, other)) continue;
        open.delete(other);
        wall.push(other);
      }
    }
    walls.push(wall);
  }
  return walls;
}
