import { pngEnd, pngHead } from '../formats/png.js';
import { toChunk } from '../png/chunk.js';

/** The dots of a part's page, as it is stored. */
export interface PageDots {
  /** The wall, a PNG. */
  readonly colours: Uint8Array;
  /** What of it shows, a grey PNG; null where all does. */
  readonly opacity: Uint8Array | null;
}

const [grey, rgb] = [0, 2];

/**
 * Take the picture out of a page that `renderPart` wrote: its samples are packed as a PNG's, and are framed as one.
 * This is no reader of PDFs: of another's it finds nothing, or what is no PNG.
 *
 * @param bytes - The file.
 * @returns Its dots, or null where there are none.
 * @see ISO 32000-1:2008, 7.3.8 (streams), 7.4.4.4 (predictors of PNG); PNG Specification, third edition, 11.2
 */
export function takeDots(bytes: Buffer): PageDots | null {
  const colours = takeImage(bytes, 'DeviceRGB', rgb);
  return colours && { colours, opacity: takeImage(bytes, 'DeviceGray', grey) };
}

function takeImage(bytes: Buffer, space: string, kind: number): Uint8Array | null {
  const spaceAt = bytes.indexOf(`/ColorSpace /${space}\n`);
  const from = bytes.lastIndexOf(' obj\n', spaceAt);
  const begin = bytes.indexOf('\nstream\n', spaceAt);
  if (spaceAt < 0 || from < 0 || begin < 0) return null;
  const entries = bytes.toString('latin1', from, begin);
  const whole = (name: string): number =>
    Number(new RegExp(`/${name} (\\d+)\\n`).exec(entries)?.[1] ?? NaN);
  const [width, height, length] = [whole('Width'), whole('Height'), whole('Length')];
  if (Number.isNaN(width + height + length)) return null;
  const data = begin + '\nstream\n'.length;
  return Buffer.concat([
    pngHead({ width, height }, kind),
    toChunk('IDAT', bytes.subarray(data, data + length)),
    pngEnd(),
  ]);
}
