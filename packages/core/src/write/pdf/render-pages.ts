import { type Page, type PageText, paleGrey, type PlacedPicture } from '../../page/page.js';
import {
  type PageDrawing,
  type PagePicture,
  type PageSheet,
  shownBy,
} from '../page/page-picture.js';
import { drawMarks } from './draw-marks.js';
import { embedPng } from './embed-png.js';
import { type Document, openDocument, pointsPerMm } from './open-document.js';

// A capital of the typeface to its size: Adobe's metrics of it say 718 in 1000.
const capital = 0.718;

/**
 * Draw pages as a PDF. Every picture is stored once, however often it is shown; its pixels are not
 * touched.
 *
 * @param pages - What to draw, 1 or more.
 * @param pictures - The parts that the pages show.
 * @param sheet - What they are drawn on, and what the document is called.
 * @yields The file, piece by piece.
 * @see ISO 32000-1:2008, 8.9.5: images
 */
export async function* renderPages(
  pages: readonly Page[],
  pictures: readonly (PagePicture | PageDrawing)[],
  sheet: PageSheet & { readonly title: string },
): AsyncGenerator<Uint8Array> {
  const { paper, printer, title } = sheet;
  const { document, addPage } = await openDocument(paper, title);
  const images = new Map<Uint8Array, PDFKit.Mixins.ImageSrc>();
  const open = async (bytes: Uint8Array): Promise<void> => {
    if (images.has(bytes)) return;
    images.set(bytes, (await embedPng(document, bytes)) ?? document.openImage(Buffer.from(bytes)));
  };
  const imageOf = (bytes: Uint8Array): PDFKit.Mixins.ImageSrc => {
    const image = images.get(bytes);
    if (image === undefined) throw new Error('a picture that nobody opened');
    return image;
  };
  for (const page of pages) {
    addPage();
    for (const { part, blank } of page.pictures) {
      for (const bytes of shownBy(pictures[part]!, blank)) await open(bytes);
      yield* written(document);
    }
    document.scale(pointsPerMm / printer.x, pointsPerMm / printer.y);
    for (const placed of page.pictures) {
      const part = pictures[placed.part]!;
      document.save();
      enterPiece(document, placed);
      if ('marks' in part) drawMarks(document, part, { blank: placed.blank, imageOf });
      else drawPicture(document, placed, { picture: part, imageOf });
      document.restore();
    }
    for (const { from, to, width } of page.lines) {
      document.lineWidth(width).moveTo(from.x, from.y).lineTo(to.x, to.y).stroke('#000000');
    }
    document.font('Helvetica').fillColor('#000000');
    for (const text of page.texts) drawText(document, text);
    yield* written(document);
  }
  document.end();
  for await (const piece of document) yield piece as Uint8Array;
}

// What is finished so far: pictures of a hundred pages are not held until the last.
function* written(document: Document): Generator<Uint8Array> {
  for (;;) {
    const piece = document.read() as Uint8Array | null;
    if (piece === null) return;
    yield piece;
  }
}

// From there on in mm of the part.
function enterPiece(document: Document, { box, piece, turned, mirrored }: PlacedPicture): void {
  document.rect(box.x, box.y, box.width, box.height).clip();
  if (turned) document.translate(box.x + box.width, box.y).rotate(90);
  else document.translate(box.x, box.y);
  if (mirrored) document.transform(-1, 0, 0, 1, piece.width, 0);
  document.translate(-piece.x, -piece.y);
}

function drawPicture(
  document: Document,
  { piece, blank }: PlacedPicture,
  {
    picture,
    imageOf,
  }: {
    readonly picture: PagePicture;
    readonly imageOf: (bytes: Uint8Array) => PDFKit.Mixins.ImageSrc;
  },
): void {
  const shown = blank ? picture.shape : picture.bytes;
  if (shown === null) {
    const { x, y, width, height } = piece;
    document.rect(x, y, width, height).fill([paleGrey, paleGrey, paleGrey]);
  } else document.image(imageOf(shown), picture.at.x, picture.at.y, { ...picture.size });
}

function drawText(document: Document, { text, at, size, turn, anchor }: PageText): void {
  const height = size / capital;
  document.save().fontSize(height);
  const start = anchor === 'middle' ? -document.widthOfString(text) / 2 : 0;
  document.translate(at.x, at.y).rotate(-turn);
  document.text(text, start, 0, { lineBreak: false, baseline: 'alphabetic' }).restore();
}
