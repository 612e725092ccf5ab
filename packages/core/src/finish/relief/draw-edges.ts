import { outOfRange } from '../../errors/out-of-range.js';
import type { ReliefMark, ReliefShape } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { inBoth } from './in-both.js';
import { type Light, shadeEdge } from './light-side.js';
import { type FacedLoop, faceLoops, type FacedPoint } from './face-loops.js';
import { narrowest } from './narrowest.js';
import { inks, leastLine, widestLine } from './pens.js';
import { shadePieces } from './shade-pieces.js';

/** Something of any outline that stands out from what lies round it, or lies deeper. */
export interface RaisedOutline {
  /** Closed lines of points x, y, x, y… in mm of paper, holes and all. */
  readonly loops: readonly Float64Array[];
  /** What of it is inside. */
  readonly rule: 'nonzero' | 'evenodd';
  /** Whether it lies deeper than what is round it. */
  readonly isSunk: boolean;
  /** How far it stands out, or how deep it lies, mm of paper: its shadow is as long; none where 0. */
  readonly rise: number;
  /** Its shadow alone, where what it is made of has lines of its own; or the lines of its holes alone. */
  readonly only?: 'shadow' | 'openings';
}

/** How its edges are drawn. */
export interface EdgesOptions {
  /** On it. */
  readonly light: Light;
  /** How far past an outer edge its line goes on, mm: over bleed, and over dots that it only begins. */
  readonly margin: number;
  /** The same past the edge of a hole. */
  readonly holeMargin: number;
  /** Real over model, for whoever is told of a size that would do. */
  readonly ratio: number;
  /** What says its shape, as the user knows it. */
  readonly named: string;
  /** The least that it may measure anywhere, mm; unless told, what its lines need. */
  readonly least?: number;
}

// A shadow's end is soft: the last fifth, or the thickness of a line, in so many steps.
const softSteps = 4;

/**
 * Draw the edges of an outline: a line along each within it, light or dark as its normal asks and mitred at
 * corners, and the shadow that they cast on what lies lower; what lies deeper is darker.
 *
 * @param outline - What stands out.
 * @param options - How it is lit.
 * @returns Marks, in the order they lie over one another.
 * @throws RangeError where it is too narrow for its lines.
 */
export function drawEdges(outline: RaisedOutline, options: EdgesOptions): readonly ReliefMark[] {
  const { light, ratio, named } = options;
  const { isSunk, rise } = outline;
  const loops = faceLoops(outline);
  const room = narrowest(loops);
  // A light line and a dark one, which may meet.
  const least = Math.max(2 * leastLine, options.least ?? 0);
  if (room < least - 1e-9) {
    const why = least > 2 * leastLine ? 'it can be cut from the card' : 'its lines stay apart';
    const wanted = `one that is ${inBoth(least, ratio)} wide or more all over, so that ${why},`;
    throw outOfRange(wanted, named, inBoth(room, ratio));
  }
  const wide = Math.min(widestLine, Math.max(leastLine, room / 3));
  const lined = outline.only === 'openings' ? loops.filter(({ isHole }) => isHole) : loops;
  const bounds = loops.map(({ points }) => Float64Array.from(points.flatMap(({ x, y }) => [x, y])));
  return [
    ...(isSunk ? [recess(bounds, light)] : []),
    ...castShadows(loops, { bounds, rise, isSunk, light }),
    ...(outline.only === 'shadow' ? [] : [drawLines(lined, wide, { ...options, isSunk })]),
  ];
}

function recess(bounds: readonly Float64Array[], light: Light): ReliefShape {
  const stops = [{ at: 0, shade: -inks.recess }];
  const pieces = [{ loops: bounds, toward: light, stops }];
  return { kind: 'shape', isFace: true, pieces, clip: null };
}

interface Casting {
  readonly bounds: readonly Float64Array[];
  readonly rise: number;
  readonly isSunk: boolean;
  readonly light: Light;
}

// Every edge that looks away from the light is swept away from it; together, and outside what casts it, or
// inside of what lies deeper, that is the shadow.
function castShadows(
  loops: readonly FacedLoop[],
  { bounds, rise, isSunk, light }: Casting,
): readonly ReliefShape[] {
  const length = rise * light.fall;
  const sign = isSunk ? -1 : 1;
  if (length === 0) return [];
  const soft = Math.min(length, Math.max(leastLine, length / 5));
  const dark = 1 - (1 - inks.shadow) ** (1 / softSteps);
  return Array.from({ length: softSteps }, (_, i): ReliefShape => {
    const by = length - (soft * (i + 0.5)) / softSteps;
    const pieces = loops.flatMap(({ points }) =>
      points.flatMap((from, k) => {
        const to = points[(k + 1) % points.length] ?? from;
        const away = -(from.out.x * light.x + from.out.y * light.y) * sign;
        return away > 1e-9 ? [swept(from, to, { x: -by * light.x, y: -by * light.y })] : [];
      }),
    );
    return {
      kind: 'shape',
      pieces: [{ loops: pieces, toward: light, stops: [{ at: 0, shade: -dark }] }],
      clip: { loops: bounds, side: isSunk ? 'inside' : 'outside' },
    };
  }).filter(({ pieces }) => pieces.some(({ loops: swept }) => swept.length > 0));
}

// Clockwise whichever way it goes.
function swept(from: PerAxis<number>, to: PerAxis<number>, by: PerAxis<number>): Float64Array {
  const turn = (to.x - from.x) * by.y - (to.y - from.y) * by.x;
  const [a, b] = turn > 0 ? [from, to] : [to, from];
  return Float64Array.of(a.x, a.y, b.x, b.y, b.x + by.x, b.y + by.y, a.x + by.x, a.y + by.y);
}

function drawLines(
  loops: readonly FacedLoop[],
  wide: number,
  { light, margin, holeMargin, isSunk }: EdgesOptions & { readonly isSunk: boolean },
): ReliefShape {
  const sign = isSunk ? -1 : 1;
  const pieces = loops.flatMap((loop) => {
    const out = loop.isHole ? holeMargin : margin;
    return smoothRuns(loop).flatMap((run) => {
      const stations = run.map(({ x, y, mitre, normal }) => {
        const above = { x: x + out * mitre.x, y: y + out * mitre.y };
        const below = { x: x - wide * mitre.x, y: y - wide * mitre.y };
        const shade = shadeEdge({ x: sign * normal.x, y: sign * normal.y }, light);
        return { above, below, at: x * light.x + y * light.y, shade };
      });
      return shadePieces(stations, light);
    });
  });
  return { kind: 'shape', pieces, clip: null };
}

interface RunPoint extends FacedPoint {
  // Of the line there: at a corner each of both has its own.
  readonly normal: PerAxis<number>;
}

// From corner to corner; between them the normal turns little by little.
function smoothRuns({ points }: FacedLoop): readonly (readonly RunPoint[])[] {
  const count = points.length;
  const first = Math.max(
    0,
    points.findIndex(({ isCorner }) => isCorner),
  );
  const runs: RunPoint[][] = [];
  for (let i = 0; i < count; i++) {
    const from = points[(first + i) % count];
    const to = points[(first + i + 1) % count];
    if (from === undefined || to === undefined) continue;
    if (i === 0 || from.isCorner) {
      runs.push([{ ...from, normal: from.isCorner ? from.out : from.between }]);
    }
    runs.at(-1)?.push({ ...to, normal: to.isCorner ? from.out : to.between });
  }
  return runs;
}
