import type { Size } from '../units/parse-size.js';
import type { Box } from '../page/page.js';

/** As much of a part as a page takes. */
export interface Piece {
  /** What of the part it shows, in mm of the part. */
  readonly box: Box;
  /** Its place among the pieces, from the top left, or null where the part is whole. */
  readonly place: { readonly column: number; readonly row: number } | null;
  /** Where it meets the next piece, mm from its left or top edge, or null: half-way over the overlap. */
  readonly joins: {
    readonly left: number | null;
    readonly right: number | null;
    readonly top: number | null;
    readonly bottom: number | null;
  };
}

/** How a part is cut, and whether its pieces lie on their sides. */
export interface Cut {
  /** Row by row. */
  readonly pieces: readonly Piece[];
  /** Whether they are turned to fit. */
  readonly turned: boolean;
}

/** What a caller may ask of {@link cutPieces}. */
export interface CutOptions {
  /** By how much pieces overlap, mm. */
  readonly overlap: number;
  /** Whether a part may lie on its side. */
  readonly turn: boolean;
}

interface Along {
  readonly from: number;
  readonly length: number;
}

// Equal pieces that overlap, together as long as the part.
function cutAlong(length: number, most: number, overlap: number): readonly Along[] {
  // A hair over is rounding.
  if (length <= most + 1e-6) return [{ from: 0, length }];
  const count = Math.ceil((length - overlap) / (most - overlap) - 1e-9);
  const piece = (length + (count - 1) * overlap) / count;
  return Array.from({ length: count }, (_, i) => ({ from: i * (piece - overlap), length: piece }));
}

/**
 * Cut a part that is larger than a page into as few equal pieces as will do; leave one that fits whole.
 *
 * @param part - Its size in mm, above 0.
 * @param most - The largest piece a page takes, mm: more than the overlap each way.
 * @param options - The overlap, and whether parts may be turned.
 * @returns What goes on pages, row by row, and which way it lies.
 */
export function cutPieces(part: Size<number>, most: Size<number>, options: CutOptions): Cut {
  const upright = cutUpright(part, most, options.overlap);
  if (!options.turn || upright.length === 1) return { pieces: upright, turned: false };
  const lying = cutUpright(part, { width: most.height, height: most.width }, options.overlap);
  const turned = lying.length < upright.length;
  return { pieces: turned ? lying : upright, turned };
}

function cutUpright(part: Size<number>, most: Size<number>, overlap: number): readonly Piece[] {
  const across = cutAlong(part.width, most.width, overlap);
  const down = cutAlong(part.height, most.height, overlap);
  const whole = across.length * down.length === 1;
  const half = overlap / 2;
  const join = (there: boolean, at: number): number | null => (there ? at : null);
  return down.flatMap((y, row) =>
    across.map((x, column) => ({
      box: { x: x.from, y: y.from, width: x.length, height: y.length },
      place: whole ? null : { column, row },
      joins: {
        left: join(column > 0, half),
        right: join(column < across.length - 1, x.length - half),
        top: join(row > 0, half),
        bottom: join(row < down.length - 1, y.length - half),
      },
    })),
  );
}
