import type { ReliefMark, ShadedPiece } from './relief-mark.js';

/**
 * Move a mark.
 *
 * @param mark - What to move.
 * @param x - To the right, mm.
 * @param y - Down.
 * @returns The same there.
 */
export function moveMark<Mark extends ReliefMark>(mark: Mark, x: number, y: number): Mark;
export function moveMark(mark: ReliefMark, x: number, y: number): ReliefMark {
  switch (mark.kind) {
    case 'disc':
      return { ...mark, x: mark.x + x, y: mark.y + y };
    case 'band': {
      const { x0, x1, y0, y1 } = mark;
      return { ...mark, x0: x0 + x, x1: x1 + x, y0: y0 + y, y1: y1 + y };
    }
    case 'shape': {
      const { pieces, clip } = mark;
      return {
        ...mark,
        pieces: pieces.map((piece) => movePiece(piece, x, y)),
        clip: clip && { ...clip, loops: moveLoops(clip.loops, x, y) },
      };
    }
  }
}

function movePiece({ loops, toward, stops }: ShadedPiece, x: number, y: number): ShadedPiece {
  const along = x * toward.x + y * toward.y;
  return {
    loops: moveLoops(loops, x, y),
    toward,
    stops: stops.map(({ at, shade }) => ({ at: at + along, shade })),
  };
}

function moveLoops(loops: readonly Float64Array[], x: number, y: number): readonly Float64Array[] {
  return loops.map((loop) => loop.map((at, i) => at + (i % 2 === 0 ? x : y)));
}
