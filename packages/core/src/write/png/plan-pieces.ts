import type { Again } from '../../raster/list-again.js';

/** Rows that are compressed as one. */
export interface Piece {
  /** The first. */
  readonly from: number;
  /** The one after the last. */
  readonly to: number;
  /** Whether it comes again after other rows than stand above it here, so that it must look at none. */
  readonly opens: boolean;
}

/** A picture in pieces. */
export interface PiecesPlan {
  /** What is compressed, in order. */
  readonly pieces: readonly Piece[];
  /** Which of them the picture is, from top to foot. */
  readonly order: readonly number[];
}

/**
 * Cut a picture into pieces, such that rows which come again are whole pieces.
 *
 * @param height - Its rows.
 * @param again - Which of them are the same as others.
 * @param most - Rows of a piece, 1 or more.
 * @returns The pieces, each once, and the order in which they come.
 */
export function planPieces(height: number, again: readonly Again[], most: number): PiecesPlan {
  const opening = new Set([0, ...again.map(({ from }) => from)]);
  const cuts = new Set([...opening, ...again.map(({ from, length }) => from + length)]);
  const pieces: Piece[] = [];
  const order: number[] = [];
  const cut = (from: number, to: number): void => {
    for (let at = from, end = from + 1; at < to; end++) {
      if (end < to && end - at < most && !cuts.has(end)) continue;
      order.push(pieces.length);
      pieces.push({ from: at, to: end, opens: opening.has(at) });
      at = end;
    }
  };
  let done = 0;
  for (const { at, from, length } of again) {
    cut(done, at);
    const first = pieces.findIndex((piece) => piece.from === from);
    const last = pieces.findIndex((piece) => piece.to === from + length);
    for (let piece = first; piece <= last; piece++) order.push(piece);
    done = at + length;
  }
  cut(done, height);
  return { pieces, order };
}
