import { type Bounds, boundsOfArea, boundsOfMark } from '../../page/bounds-of-mark.js';
import type { DrawnLine, DrawnShape } from '../../page/drawn.js';
import { mmPerInch } from '../../units/units.js';
import type { PageDrawing } from './page-picture.js';

// The renderer counts in 256ths of a dot, in 32 bits; half of that is left for where pages begin.
const mostReach = 2 ** 22;
// Each is drawn on its own, if only a dot long, once for each tile that shows some of its line.
const mostDashes = 1e7;
// Of a line with itself; the renderer finds a million of them in a second, once for each tile.
const mostCrossings = 1e7;
const tile = 768;

/**
 * Tell what of a drawing cannot be drawn in dots, though it can be laid on a page of a PDF.
 *
 * @param drawing - What it shows.
 * @param dpi - Dots to the inch.
 * @returns Its words, or null.
 */
export function faultInDots(drawing: PageDrawing, dpi: number): string | null {
  const { marks, pictures } = drawing;
  const most = (mostReach * mmPerInch) / dpi;
  const none = { width: 0, height: 0 };
  let dashes = 0;
  let crossings = 0;
  for (const mark of marks) {
    const pixels = mark.kind === 'picture' ? pictures[mark.picture]!.pixels : none;
    const bounds = boundsOfMark(mark, pixels);
    const reach = Math.max(...[bounds, ...mark.clips.map(boundsOfArea)].map(reachOf));
    if (!(reach <= most)) {
      return `something that reaches ${Number((reach / 1000).toPrecision(3))} m off it, more than is drawn in dots`;
    }
    if (mark.kind === 'shape' && mark.line !== null) {
      dashes += countDashes(mark, mark.line) * countTiles(bounds, dpi);
      crossings += countCrossings(mark, bounds, dpi);
    }
    if (dashes > mostDashes) return 'lines of more dashes than can be drawn in dots';
    if (crossings > mostCrossings)
      return 'lines that cross themselves more often than can be drawn in dots';
  }
  return null;
}

// What lets nothing through reaches nowhere.
function reachOf({ x0, y0, x1, y1 }: Bounds): number {
  return x0 > x1 ? 0 : Math.max(...[x0, y0, x1, y1].map(Math.abs));
}

function countTiles({ x0, y0, x1, y1 }: Bounds, dpi: number): number {
  const perTile = (tile * mmPerInch) / dpi;
  return Math.ceil((x1 - x0) / perTile + 1) * Math.ceil((y1 - y0) / perTile + 1);
}

// Near enough: along the points that curves bend to, and over gaps in the path.
function countDashes({ steps }: DrawnShape, { dashes }: DrawnLine): number {
  if (dashes.length === 0) return 0;
  return (lengthOf(steps) * dashes.length) / dashes.reduce((sum, dash) => sum + dash, 0);
}

function lengthOf(steps: DrawnShape['steps']): number {
  const spots = steps.flatMap(([, ...numbers]) => numbers);
  let length = 0;
  for (let i = 2; i + 1 < spots.length; i += 2) {
    length += Math.hypot(spots[i]! - spots[i - 2]!, spots[i + 1]! - spots[i - 1]!);
  }
  return length;
}

// Pairs of its pieces that are looked at, of all that there are.
const looked = 4000;

// By a sample: of hatching no two cross, of a scribble every third pair. As often as tiles show some of it.
function countCrossings({ steps }: DrawnShape, bounds: Bounds, dpi: number): number {
  const pieces = piecesOf(steps);
  const count = pieces.length / 4;
  // Fewer cannot be too many.
  if (count < 1000) return 0;
  let crossed = 0;
  for (let i = 0; i < looked; i++) {
    // Spread over all pairs, the same ones each time.
    const one = Math.floor(count * ((i * 0.754877666) % 1));
    const other = Math.floor(count * ((i * 0.569840291) % 1));
    if (Math.abs(one - other) > 1 && doCross(pieces, 4 * one, 4 * other)) crossed++;
  }
  return (countTiles(bounds, dpi) * (crossed / looked) * count ** 2) / 2;
}

// From where to where, four numbers each; a curve by the points that it bends to.
function piecesOf(steps: DrawnShape['steps']): Float64Array {
  const pieces: number[] = [];
  let [x, y] = [0, 0];
  for (const [kind, ...numbers] of steps) {
    for (let i = 0; i + 1 < numbers.length; i += 2) {
      const [toX, toY] = [numbers[i]!, numbers[i + 1]!];
      if (kind !== 'M') pieces.push(x, y, toX, toY);
      [x, y] = [toX, toY];
    }
  }
  return Float64Array.from(pieces);
}

function doCross(pieces: Float64Array, one: number, other: number): boolean {
  const side = (of: number, from: number): number =>
    (pieces[from + 2]! - pieces[from]!) * (pieces[of + 1]! - pieces[from + 1]!) -
    (pieces[from + 3]! - pieces[from + 1]!) * (pieces[of]! - pieces[from]!);
  return side(other, one) * side(other + 2, one) < 0 && side(one, other) * side(one + 2, other) < 0;
}
