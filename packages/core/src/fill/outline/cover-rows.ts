import { TextureError } from '../../errors/texture-error.js';
import { addEdge } from '../../numeric/add-edge.js';
import { type Edges, listEdges } from './list-edges.js';
import type { PartOutline } from './part-outline.js';

// Crossings, and cuts at the ends of edges, times the edges beside them, in all: two seconds or so, several times
// over. What is drawn by hand takes some thousands.
const mostWork = 60_000_000;
// Heights nearer to one another than this share of a pixel are one.
const near = 1e-9;

/** How large a picture is. */
export interface CoveredSize {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/**
 * Tell for each pixel which share of it lies inside an outline, row by row and exactly: every row is
 * cut where an edge ends or two cross, so that between two cuts edges keep their order and what they
 * bound is trapezia.
 *
 * @param outline - In pixels from the picture's top left; nothing of it left, right, above or below.
 * @param size - Of the picture, in whole pixels.
 * @param most - Work before it gives up: cuts times the edges that each runs through.
 * @yields 0 to 1 for each pixel of a row; the same array again for the next.
 * @throws TextureError `bad-drawing` where it crosses itself without end.
 */
export function* coverRows(
  outline: PartOutline,
  size: CoveredSize,
  most: number = mostWork,
): Generator<Float64Array, void> {
  const { width, height } = size;
  const edges = listEdges(outline.loops);
  const sweep = new Sweep(edges, outline.rule, { width, most });
  const cover = new Float64Array(width);
  let active: number[] = [];
  let next = 0;
  let isSteady = false;
  for (let y = 0; y < height; y++) {
    const before = active.length;
    active = active.filter((edge) => edges.bottom[edge]! > y);
    isSteady &&= active.length === before;
    for (; next < edges.top.length && edges.top[next]! < y + 1; next++) {
      active.push(next);
      isSteady = false;
    }
    // Between upright edges a row is as the one above.
    if (!isSteady) sweep.take(active, y, cover);
    isSteady = active.every((edge) => edges.slope[edge] === 0 && reachesPast(edges, edge, y));
    yield cover;
  }
}

function reachesPast({ top, bottom }: Edges, edge: number, y: number): boolean {
  return top[edge]! <= y && bottom[edge]! >= y + 2;
}

class Sweep {
  readonly #edges: Edges;
  readonly #isOdd: boolean;
  readonly #differences: Float64Array;
  // Where each edge is at the top and the foot of the band at hand.
  readonly #upper: Float64Array;
  readonly #lower: Float64Array;
  readonly #most: number;
  #spent = 0;

  constructor(
    edges: Edges,
    rule: PartOutline['rule'],
    { width, most }: { readonly width: number; readonly most: number },
  ) {
    this.#most = most;
    this.#edges = edges;
    this.#isOdd = rule === 'evenodd';
    this.#differences = new Float64Array(width + 2);
    this.#upper = new Float64Array(edges.top.length);
    this.#lower = new Float64Array(edges.top.length);
  }

  // Puts the edges in order from left to right on the way: on the next row few will have changed about.
  take(active: number[], y: number, cover: Float64Array): void {
    const { top, bottom } = this.#edges;
    this.#differences.fill(0);
    this.#place(active, y, y + 1);
    this.#order(active);
    const cuts = [y, y + 1];
    for (const edge of active) {
      const [from, to] = [top[edge]!, bottom[edge]!];
      if (from > y && from < y + 1) cuts.push(from);
      if (to > y && to < y + 1) cuts.push(to);
    }
    cuts.sort((a, b) => a - b);
    this.#spend(cuts.length * active.length);
    for (let i = 1; i < cuts.length; i++) {
      const [from, to] = [cuts[i - 1]!, cuts[i]!];
      if (to - from < near) continue;
      const middle = (from + to) / 2;
      const through = active.filter((edge) => top[edge]! < middle && bottom[edge]! > middle);
      this.#takeBand(through, from, to);
    }
    let sum = 0;
    for (let i = 0; i < cover.length; i++) {
      sum += this.#differences[i]!;
      cover[i] = Math.min(1, Math.max(0, sum));
    }
  }

  // Edges that all run through it.
  #takeBand(through: number[], from: number, to: number): void {
    this.#place(through, from, to);
    const [upper, lower] = [this.#upper, this.#lower];
    this.#order(through);
    const isOrdered = through.every(
      (edge, i) => i === 0 || lower[edge]! >= lower[through[i - 1]!]! - near,
    );
    if (isOrdered) {
      this.#addBand(through, to - from);
      return;
    }
    const cuts = [from, ...this.#crossings(through, from, to), to];
    for (let i = 1; i < cuts.length; i++) {
      const [start, end] = [cuts[i - 1]!, cuts[i]!];
      if (end - start < near) continue;
      this.#place(through, start, end);
      through.sort((a, b) => upper[a]! + lower[a]! - upper[b]! - lower[b]!);
      this.#addBand(through, end - start);
    }
  }

  // From left to right at the top of the band, then at its foot; most often they are already.
  #order(through: number[]): void {
    const [upper, lower] = [this.#upper, this.#lower];
    const far = (a: number, b: number): number => upper[a]! - upper[b]! || lower[a]! - lower[b]!;
    for (let i = 1; i < through.length; i++) {
      if (far(through[i - 1]!, through[i]!) <= 0) continue;
      through.sort(far);
      return;
    }
  }

  #place(through: readonly number[], from: number, to: number): void {
    const { top, start, slope } = this.#edges;
    const right = this.#differences.length - 2;
    for (const edge of through) {
      const upper = start[edge]! + (from - top[edge]!) * slope[edge]!;
      const lower = start[edge]! + (to - top[edge]!) * slope[edge]!;
      this.#upper[edge] = Math.min(right, Math.max(0, upper));
      this.#lower[edge] = Math.min(right, Math.max(0, lower));
    }
  }

  // Heights at which edges that stand in order at `from` change about before `to`.
  #crossings(ordered: readonly number[], from: number, to: number): number[] {
    const found: number[] = [];
    const placed: number[] = [];
    // Put in the order of its foot one by one, an edge passes by those that it crosses.
    for (const right of ordered) {
      let at = placed.length;
      for (; at > 0; at--) {
        const left = placed[at - 1]!;
        const behind = this.#lower[left]! - this.#lower[right]!;
        if (!(behind > 0)) break;
        const ahead = this.#upper[right]! - this.#upper[left]!;
        found.push(from + ((to - from) * ahead) / (ahead + behind));
      }
      placed.splice(at, 0, right);
    }
    this.#spend(found.length * ordered.length);
    return found.sort((a, b) => a - b);
  }

  #spend(work: number): void {
    this.#spent += work;
    if (this.#spent <= this.#most) return;
    throw new TextureError(
      'bad-drawing',
      'the outline crosses itself, or is jagged, too often to be filled',
    );
  }

  #addBand(ordered: readonly number[], height: number): void {
    let wound = 0;
    let isInside = false;
    for (const edge of ordered) {
      wound += this.#edges.winding[edge]!;
      const goesIn = this.#isOdd ? wound % 2 !== 0 : wound !== 0;
      if (goesIn === isInside) continue;
      const share = goesIn ? height : -height;
      addEdge(this.#differences, this.#upper[edge]!, this.#lower[edge]!, share);
      isInside = goesIn;
    }
  }
}
