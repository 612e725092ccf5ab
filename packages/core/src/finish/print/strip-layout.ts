import type { Box, PagePoint } from '../../page/page.js';
import { stripColumns, stripRows } from './strip-patches.js';

const patch = 7.5;
const pitch = 10;
const border = 14;
const cell = 4;

/** The strip's picture, mm. */
export const stripSize: { readonly width: number; readonly height: number } = {
  width: 2 * border + stripColumns * pitch - (pitch - patch),
  height: 2 * border + stripRows * pitch - (pitch - patch),
};

/** Side of a corner mark, a black square with a white one in its middle, mm. */
export const markSide = 10;
/** Side of the white square in a mark's middle, mm. */
export const markHole = 4;

/** Middles of the corner marks: top left, top right, bottom right, bottom left, mm. */
export const markCentres: readonly PagePoint[] = cornersOf(markSide / 2);

function cornersOf(inset: number): readonly PagePoint[] {
  const { width, height } = stripSize;
  return [
    { x: inset, y: inset },
    { x: width - inset, y: inset },
    { x: width - inset, y: height - inset },
    { x: inset, y: height - inset },
  ];
}

/**
 * Tell where a patch lies.
 *
 * @param index - Its place in the list of patches.
 * @returns Its square, mm.
 */
export function patchBox(index: number): Box {
  const [column, row] = [index % stripColumns, Math.floor(index / stripColumns)];
  return { x: border + column * pitch, y: border + row * pitch, width: patch, height: patch };
}

/** Middles of the white between patches and around them, where lanes of it cross, mm. */
export const whiteCentres: readonly PagePoint[] = Array.from(
  { length: (stripColumns + 1) * (stripRows + 1) },
  (_, i) => ({
    x: border - (pitch - patch) / 2 + (i % (stripColumns + 1)) * pitch,
    y: border - (pitch - patch) / 2 + Math.floor(i / (stripColumns + 1)) * pitch,
  }),
);

/** Side of a square that is white wherever lanes cross, mm. */
export const whiteSide = 1.4;

/** Cells of the code between the upper marks. */
const cells = 8;

/** Cells of the code that tells which strip it is, and which side is up, from left to right, mm. */
export const codeCells: readonly Box[] = Array.from({ length: cells }, (_, i) => ({
  x: stripSize.width / 2 + (i - cells / 2) * 2 * cell + cell / 2,
  y: markSide / 2 - cell / 2,
  width: cell,
  height: cell,
}));

/**
 * Tell which cells of the code are black: the first is and the last is not, so that which way it is read
 * shows; between them a number from 0 to 31, and as many more as make an even number of them black.
 *
 * @param version - The number.
 * @returns Whether each is black.
 */
export function toCode(version: number): readonly boolean[] {
  const bits = Array.from(
    { length: cells - 3 },
    (_, i) => ((version >> (cells - 4 - i)) & 1) === 1,
  );
  const isOdd = bits.filter(Boolean).length % 2 === 1;
  return [true, ...bits, isOdd, false];
}

/**
 * Read which strip it is.
 *
 * @param code - Whether each cell is black, from left to right.
 * @returns Its number, or null where the cells make no code.
 */
export function fromCode(code: readonly boolean[]): number | null {
  const version = code
    .slice(1, cells - 2)
    .reduce((number, isBlack) => 2 * number + (isBlack ? 1 : 0), 0);
  return toCode(version).every((isBlack, i) => isBlack === code[i]) ? version : null;
}
