import type { Size } from '../../units/parse-size.js';
import { mmPerInch } from '../../units/units.js';
import { srgbProfile } from '../srgb-profile.js';

/** A PDF, with what the library's types leave out. */
export type Document = PDFKit.PDFDocument & {
  readonly openImage: (bytes: Buffer) => PDFKit.Mixins.ImageSrc;
  readonly page: {
    readonly colorSpaces: Record<string, unknown>;
    readonly dictionary: { readonly data: Record<string, unknown> };
  };
};

/** Points of PDF to a millimetre. */
export const pointsPerMm: number = 72 / mmPerInch;

/**
 * Begin a PDF of pages of one size, whose colours are sRGB.
 *
 * @param paper - The pages, mm.
 * @param title - What it is called.
 * @returns The document, and what adds a page to it.
 * @see ISO 32000-1:2008, 8.6.5.6 (default colour spaces), 14.11.2 (page boundaries)
 */
export async function openDocument(
  paper: Size<number>,
  title: string,
): Promise<{ readonly document: Document; readonly addPage: () => void }> {
  const { default: PDFDocument } = await import('pdfkit');
  const profile = await srgbProfile();
  const document = new PDFDocument({
    autoFirstPage: false,
    compress: true,
    margin: 0,
    size: [paper.width * pointsPerMm, paper.height * pointsPerMm],
    info: {
      Title: title,
      Producer: 'gaugerod',
      Creator: 'gaugerod',
      CreationDate: new Date(0),
    },
  }) as Document;
  // No date, here or in the notes that repeat it: the same parts give the same file.
  Reflect.deleteProperty(document.info, 'CreationDate');
  Reflect.set(document, 'endMetadata', () => undefined);
  const space = document.ref({ N: 3, Alternate: 'DeviceRGB' });
  space.end(Buffer.from(profile));
  const addPage = (): void => {
    document.addPage();
    // Colours without a profile are sRGB on these pages.
    document.page.colorSpaces['DefaultRGB'] = ['ICCBased', space];
  };
  return { document, addPage };
}
