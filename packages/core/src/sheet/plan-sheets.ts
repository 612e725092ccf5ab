import type { Warning } from '../errors/warning.js';
import type { Outcome } from '../errors/outcome.js';
import type { Size } from '../units/parse-size.js';
import { cutPieces, type Piece } from './cut-pieces.js';
import { barStrip, layBars } from './lay-bars.js';
import { packBoxes } from './pack-boxes.js';
import { placePiece } from './place-piece.js';
import { checkSheetOptions, type SheetOptions } from './sheet-options.js';
import type { PlacedPicture, Page } from '../page/page.js';

/** One piece of card to be printed. */
export interface SheetPart {
  /** What its label says. */
  readonly name: string;
  /** From left to right, bleed included, mm of paper. */
  readonly width: number;
  /** From top to bottom, bleed included, mm of paper. */
  readonly height: number;
  /** Extra picture along its edges, to be cut away, mm; none unless told. */
  readonly bleed?: number;
}

/** Where a piece of a part came to lie. */
export interface SheetPlace {
  /** Which part. */
  readonly part: number;
  /** On which page, from 0. */
  readonly page: number;
  /** Layer from 1, the one that carries the print. */
  readonly layer: number;
  /** Its place among the part's pieces, or null where it is whole. */
  readonly piece: Piece['place'];
  /** The picture as placed. */
  readonly picture: PlacedPicture;
}

/** Pages, and what lies where. */
export interface SheetPlan {
  /** To be drawn. */
  readonly pages: readonly Page[];
  /** Part by part. */
  readonly places: readonly SheetPlace[];
}

interface Item {
  readonly part: number;
  readonly layer: number;
  readonly piece: Piece;
  readonly turned: boolean;
  readonly label: string;
}

const mostItems = 2000;

/**
 * Lay parts on pages at true size: as few pages as will do, what is larger than a page cut into
 * pieces that overlap. Sizes are what paper is to measure.
 *
 * @param parts - What to print.
 * @param options - The paper, and what goes around the parts.
 * @returns The pages, or why the paper does not do.
 * @throws RangeError when an option makes no sense.
 */
export function planSheets(
  parts: readonly SheetPart[],
  options: SheetOptions,
): Outcome<SheetPlan, 'paper-too-small' | 'too-many-pieces'> {
  const { paper, margin = 5, gap = 7, overlap = 8, turn = true } = options;
  checkSheetOptions({ ...options, bleeds: parts.map(({ bleed = 0 }) => bleed) });
  // Marks stand in half a gap on every side of a piece.
  const area = {
    width: paper.width - 2 * margin - barStrip,
    height: paper.height - 2 * margin - barStrip,
  };
  const most = { width: area.width - gap, height: area.height - gap };
  if (!(Math.min(most.width, most.height) > Math.max(2 * overlap, 10))) return tooSmall(paper);
  const items = listItems(parts, most, options);
  if (items === null) return tooMany();

  const fits = ({ width, height }: Size<number>): boolean =>
    width <= most.width && height <= most.height;
  const boxes = items.map(({ piece, turned }) => sidesOf(piece, turned));
  const packed = packBoxes(
    boxes.map(({ width, height }) => ({ width: width + gap, height: height + gap })),
    area,
    boxes.map(({ width, height }) => turn && fits({ width: height, height: width })),
  );
  const origin = { x: margin + barStrip + gap / 2, y: margin + gap / 2 };
  const places = packed.map(({ index, page, x, y, turned: again }): SheetPlace => {
    const item = items[index]!;
    const turned = item.turned !== again;
    const box = { x: origin.x + x, y: origin.y + y, ...sidesOf(item.piece, turned) };
    const blank = item.layer > 1;
    const mirrored = blank && options.mirror === true;
    const picture = { part: item.part, box, piece: item.piece.box, turned, mirrored, blank };
    return { part: item.part, page, layer: item.layer, piece: item.piece.place, picture };
  });
  const count = 1 + Math.max(...packed.map(({ page }) => page));
  const unsaid: string[] = [];
  const pages = Array.from({ length: count }, (_, page): Page => {
    const footer = options.footer?.(page + 1, count) ?? '';
    const bars = layBars(paper, margin, footer);
    if (!bars.isFooterLaid) unsaid.push(footer);
    const here = packed.filter((box) => box.page === page);
    const marks = here.map(({ index }) => {
      const { part, piece, label } = items[index]!;
      const { picture } = places[index]!;
      const { bleed = 0 } = parts[part]!;
      return placePiece(picture, { piece, label, bleed, room: gap / 2 });
    });
    return {
      pictures: here.map(({ index }) => places[index]!.picture),
      lines: [...marks.flatMap(({ lines }) => lines), ...bars.lines],
      texts: [...marks.flatMap(({ texts }) => texts), ...bars.texts],
    };
  });
  return { ok: true, value: { pages, places }, warnings: warnOfFooter(unsaid) };
}

function warnOfFooter([first, ...others]: readonly string[]): Warning[] {
  if (first === undefined) return [];
  const where = others.length === 0 ? 'the page has' : `${others.length + 1} pages have`;
  const message = `${where} no room to say "${first}"`;
  return [{ code: 'no-footer', message }];
}

function sidesOf({ box: { width, height } }: Piece, turned: boolean): Size<number> {
  return turned ? { width: height, height: width } : { width, height };
}

// Every piece of every layer of every copy of every part, or null where that is past counting.
function listItems(
  parts: readonly SheetPart[],
  most: Size<number>,
  options: SheetOptions,
): readonly Item[] | null {
  const { copies = 1, layers = 1, overlap = 8, turn = true } = options;
  const items: Item[] = [];
  for (const [part, { name, width, height }] of parts.entries()) {
    if (leastPieces({ width, height }, most) > mostItems) return null;
    const { pieces, turned } = cutPieces({ width, height }, most, { overlap, turn });
    if (items.length + pieces.length * copies * layers > mostItems) return null;
    for (let copy = 0; copy < copies; copy++) {
      for (let layer = 1; layer <= layers; layer++) {
        for (const piece of pieces) {
          const label = [name, ...layerWords(layer, layers), ...pieceWords(piece)].join(', ');
          items.push({ part, layer, piece, turned, label });
        }
      }
    }
  }
  return items;
}

// Whichever way it lies: told before any are made.
function leastPieces(part: Size<number>, most: Size<number>): number {
  const along = Math.max(part.width, part.height) / Math.max(most.width, most.height);
  return Math.max(along, (part.width * part.height) / (most.width * most.height));
}

function layerWords(layer: number, layers: number): readonly string[] {
  return layers === 1 ? [] : [`layer ${layer} of ${layers}`];
}

function pieceWords({ place }: Piece): readonly string[] {
  return place === null ? [] : [`piece ${place.row + 1}.${place.column + 1}`];
}

function tooSmall(paper: Size<number>): Outcome<never, 'paper-too-small'> {
  const size = `${Number(paper.width.toFixed(1))} x ${Number(paper.height.toFixed(1))} mm`;
  return {
    ok: false,
    code: 'paper-too-small',
    message: `paper of ${size} leaves no room between its margins`,
    hint: 'choose a larger paper, or a smaller --margin, --gap or --overlap',
  };
}

function tooMany(): Outcome<never, 'too-many-pieces'> {
  return {
    ok: false,
    code: 'too-many-pieces',
    message: `the parts come to more than ${mostItems} pieces`,
    hint: 'check their sizes with gaugerod scale, or print fewer at a time',
  };
}
