import { createDeflate } from 'node:zlib';
import type { RowSource } from '../../raster/row-source.js';
import type { PartPicture } from '../part/part-picture.js';
import { unhurried } from '../written-rows.js';
import { compressRows } from '../png/compress-rows.js';
import { type Document, openDocument, pointsPerMm } from './open-document.js';

// Of a PNG's chunk: its length and kind, and its checksum.
const [frameHead, frameTail] = [8, 4];

/**
 * Draw a part as a PDF of one page that is exactly as large as it is. Its picture is stored once, as
 * dots of the wall; what of them shows is told by their opacity. Nothing smooths them: images are not
 * interpolated unless a PDF asks for it.
 *
 * @param part - What to draw.
 * @param title - What the document is called.
 * @yields The file, piece by piece.
 * @see ISO 32000-1:2008, 7.4.4 (predictors of PNG), 8.9.5 (images), 11.6.5.3 (soft masks), 14.11.2
 */
export async function* renderPart(part: PartPicture, title: string): AsyncGenerator<Uint8Array> {
  const { rows, wall, page, bleed, at, dot } = part;
  const { document, addPage } = await openDocument(page, title);
  addPage();
  if (bleed > 0) markTrim(document, part);
  const mask = rows.channels === 4 ? await addMask(document, rows) : null;
  const image = document.ref({
    ...described(wall, 'DeviceRGB', 3),
    ...(mask !== null && { SMask: mask }),
  });
  for await (const chunk of compressRows(wall)) {
    image.write(Buffer.from(chunk.subarray(frameHead, chunk.length - frameTail)));
  }
  image.end(Buffer.alloc(0));
  const { width, height } = wall;
  // In points as they are: a scale that is rounded makes a page's last dots half a dot larger.
  const shown = { width, height, label: 'Wall', obj: image };
  document.image(
    shown as unknown as PDFKit.Mixins.ImageSrc,
    at.x * pointsPerMm,
    at.y * pointsPerMm,
    {
      width: width * dot * pointsPerMm,
      height: height * dot * pointsPerMm,
    },
  );
  document.end();
  for await (const piece of document) yield piece as Uint8Array;
}

// Samples as a PNG has them, so that `takeDots` gets one by a PNG's own frame.
function described(
  { width, height }: RowSource,
  space: 'DeviceRGB' | 'DeviceGray',
  colours: number,
): Record<string, unknown> {
  return {
    Type: 'XObject',
    Subtype: 'Image',
    Width: width,
    Height: height,
    BitsPerComponent: 8,
    Interpolate: false,
    Filter: 'FlateDecode',
    ColorSpace: space,
    DecodeParms: { Predictor: 15, Colors: colours, BitsPerComponent: 8, Columns: width },
  };
}

// What is left of the page once bleed is cut away.
function markTrim(document: Document, { page, bleed }: PartPicture): void {
  const [left, foot] = [bleed * pointsPerMm, bleed * pointsPerMm];
  const [right, top] = [(page.width - bleed) * pointsPerMm, (page.height - bleed) * pointsPerMm];
  document.page.dictionary.data['TrimBox'] = [left, foot, right, top];
}

async function addMask(document: Document, source: RowSource): Promise<PDFKit.PDFKitReference> {
  const { width } = source;
  const deflate = createDeflate({ level: 6 });
  const mask = document.ref(described(source, 'DeviceGray', 1));
  const feed = async (): Promise<void> => {
    for await (const rows of unhurried(source)) {
      for (const row of rows) {
        // Its first byte says that the row is filtered by nothing.
        const opacity = Buffer.alloc(width + 1);
        for (let i = 0; i < width; i++) opacity[i + 1] = row[4 * i + 3]!;
        if (!deflate.write(opacity)) await new Promise((resolve) => deflate.once('drain', resolve));
      }
    }
    deflate.end();
  };
  const fed = feed().catch((cause: unknown) => {
    deflate.destroy(cause instanceof Error ? cause : new Error(String(cause)));
  });
  for await (const piece of deflate) mask.write(piece as Buffer);
  await fed;
  mask.end(Buffer.alloc(0));
  return mask;
}
