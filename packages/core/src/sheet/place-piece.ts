import type { PageLine, PagePoint, PageText, PlacedPicture } from '../page/page.js';
import type { Piece } from './cut-pieces.js';

/** A piece on a page, with what is drawn around it. */
export interface PieceMarks {
  /** Crop and match marks, all outside the print. */
  readonly lines: readonly PageLine[];
  /** Its name and the letters of its match marks. */
  readonly texts: readonly PageText[];
}

/** What is drawn around a piece. */
export interface PieceSurroundings {
  /** What the piece is. */
  readonly piece: Piece;
  /** Its name. */
  readonly label: string;
  /** Extra picture along the part's own edges, to be cut away, mm. */
  readonly bleed: number;
  /** The room that marks may take on every side, mm. */
  readonly room: number;
}

// Hairlines that any printer shows, and letters that can be read: common practice, no source.
const hairline = 0.1;
const clear = 0.5;
const labelSize = 1.6;
const leastSize = 0.9;
// A capital's height to the mean advance of a letter of the labels' typeface.
const advance = 0.8;

/**
 * Draw what helps to cut a piece out and join it to its neighbours.
 *
 * @param placed - Where the piece lies.
 * @param around - What it is.
 * @returns Marks and label.
 */
export function placePiece(placed: PlacedPicture, around: PieceSurroundings): PieceMarks {
  const { piece, room } = around;
  const lines = [...cropMarks(around), ...matchMarks(around)].map(({ from, to }) => ({
    from: onPage(placed, from),
    to: onPage(placed, to),
    width: hairline,
  }));
  const letters = matchLetters(piece, room).map(({ text, at }) => ({
    text,
    at: sunk(onPage(placed, at)),
    size: leastSize,
    turn: 0,
    anchor: 'middle' as const,
  }));
  return { lines, texts: [...nameOf(placed, around, letters), ...letters] };
}

interface Stroke {
  readonly from: PagePoint;
  readonly to: PagePoint;
}

// From the piece as it stands upright, unmirrored, to the page.
function onPage({ box, piece, turned, mirrored }: PlacedPicture, at: PagePoint): PagePoint {
  const x = mirrored ? piece.width - at.x : at.x;
  return turned
    ? { x: box.x + piece.height - at.y, y: box.y + x }
    : { x: box.x + x, y: box.y + at.y };
}

// Letters stand in the middle of their place.
function sunk({ x, y }: PagePoint): PagePoint {
  return { x, y: y + leastSize / 2 };
}

function cropMarks({ piece, bleed, room }: PieceSurroundings): readonly Stroke[] {
  const { box, joins } = piece;
  const { width, height } = box;
  const left = joins.left === null ? bleed : 0;
  const right = width - (joins.right === null ? bleed : 0);
  const top = joins.top === null ? bleed : 0;
  const bottom = height - (joins.bottom === null ? bleed : 0);
  const across = [left, right].flatMap((x) => [
    { from: { x, y: -clear }, to: { x, y: -room } },
    { from: { x, y: height + clear }, to: { x, y: height + room } },
  ]);
  const down = [top, bottom].flatMap((y) => [
    { from: { x: -clear, y }, to: { x: -room, y } },
    { from: { x: width + clear, y }, to: { x: width + room, y } },
  ]);
  return [...across, ...down];
}

// A small arrow on either side of the piece, that points at the line where it meets the next one.
function matchMarks({ piece, room }: PieceSurroundings): readonly Stroke[] {
  const { width, height } = piece.box;
  const half = 0.3 * room;
  const tip = 0.6 * room;
  const ofColumn = (x: number): Stroke[] =>
    [-clear, height + clear].flatMap((y) => {
      const back = y < 0 ? y - tip : y + tip;
      return [
        { from: { x: x - half, y: back }, to: { x, y } },
        { from: { x: x + half, y: back }, to: { x, y } },
      ];
    });
  const ofRow = (y: number): Stroke[] =>
    [-clear, width + clear].flatMap((x) => {
      const back = x < 0 ? x - tip : x + tip;
      return [
        { from: { x: back, y: y - half }, to: { x, y } },
        { from: { x: back, y: y + half }, to: { x, y } },
      ];
    });
  return [
    ...columnsOf(piece)
      .map(([x]) => x)
      .flatMap(ofColumn),
    ...rowsOf(piece)
      .map(([y]) => y)
      .flatMap(ofRow),
  ];
}

// Where pieces meet side by side, and which meeting that is, counted from the left.
function columnsOf({ place, joins }: Piece): readonly (readonly [at: number, index: number])[] {
  const column = place?.column ?? 0;
  return [
    ...(joins.left === null ? [] : [[joins.left, column - 1] as const]),
    ...(joins.right === null ? [] : [[joins.right, column] as const]),
  ];
}

function rowsOf({ place, joins }: Piece): readonly (readonly [at: number, index: number])[] {
  const row = place?.row ?? 0;
  return [
    ...(joins.top === null ? [] : [[joins.top, row - 1] as const]),
    ...(joins.bottom === null ? [] : [[joins.bottom, row] as const]),
  ];
}

// Letters where pieces meet side by side, numbers where they meet one above the other.
function matchLetters(
  piece: Piece,
  room: number,
): readonly { readonly text: string; readonly at: PagePoint }[] {
  const { width, height } = piece.box;
  const aside = 0.3 * room + labelSize / 2 + 0.2;
  const out = clear + 0.4 * room;
  return [
    ...columnsOf(piece).flatMap(([x, index]) =>
      [-out, height + out].map((y) => ({ text: toLetters(index), at: { x: x + aside, y } })),
    ),
    ...rowsOf(piece).flatMap(([y, index]) =>
      [-out, width + out].map((x) => ({ text: `${index + 1}`, at: { x, y: y + aside } })),
    ),
  ];
}

// A to Z, then AA, AB…
function toLetters(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : toLetters(Math.floor(index / 26) - 1) + letter;
}

// Under the picture, right of the letters that stand there, and as small as it must be to end where
// the picture does.
function nameOf(
  { box }: PlacedPicture,
  { label, room }: PieceSurroundings,
  letters: readonly PageText[],
): readonly PageText[] {
  const foot = box.y + box.height;
  const beside = letters
    .filter(({ at }) => at.y > foot && at.x < box.x + box.width / 2)
    .map(({ at }) => at.x + 2 * leastSize);
  const start = Math.max(box.x, ...beside) + clear;
  const fitting = (box.x + box.width - start) / (advance * Math.max(1, label.length));
  const size = Math.min(labelSize, fitting, room - clear - 0.2);
  if (size < leastSize) return [];
  return [
    { text: label, at: { x: start, y: foot + clear + 0.2 + size }, size, turn: 0, anchor: 'start' },
  ];
}
