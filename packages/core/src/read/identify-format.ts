import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';

/** The kinds of picture that are read. */
export type PictureFormat = 'jpeg' | 'png' | 'webp' | 'tiff' | 'avif' | 'gif';

interface Magic<Name> {
  readonly name: Name;
  readonly at?: number;
  readonly bytes: string; // one character a byte
}

const read: readonly Magic<PictureFormat>[] = [
  { name: 'jpeg', bytes: '\xff\xd8\xff' },
  { name: 'png', bytes: '\x89PNG\r\n\x1a\n' },
  { name: 'webp', at: 8, bytes: 'WEBP' },
  { name: 'tiff', bytes: 'II*\0' },
  { name: 'tiff', bytes: 'MM\0*' },
  { name: 'tiff', bytes: 'II+\0' },
  { name: 'tiff', bytes: 'MM\0+' },
  { name: 'gif', bytes: 'GIF8' },
];

const refused: readonly Magic<string>[] = [
  { name: 'a Canon raw photo (CR2)', at: 8, bytes: 'CR\x02' },
  { name: 'BMP', bytes: 'BM' },
  { name: 'a layered PSD file', bytes: '8BPS' },
  { name: 'PDF', bytes: '%PDF' },
  { name: 'JPEG XL', bytes: '\xff\x0a' },
  { name: 'JPEG XL', bytes: '\0\0\0\x0cJXL ' },
  { name: 'JPEG 2000', bytes: '\0\0\0\x0cjP  ' },
  { name: 'OpenEXR', bytes: '\x76\x2f\x31\x01' },
  { name: 'Radiance HDR', bytes: '#?RADIANCE' },
  { name: 'a Fujifilm raw photo (RAF)', bytes: 'FUJIFILMCCD-RAW' },
  { name: 'an icon file (ICO)', bytes: '\0\0\x01\0' },
  { name: 'an XCF file', bytes: 'gimp xcf' },
];

const heifBrands = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs', 'mif1', 'msf1'];

const hint = 'save it as JPEG or PNG';

function matches(head: string, { at = 0, bytes }: Magic<string>): boolean {
  return head.startsWith(bytes, at);
}

// Major and compatible brands of a file that begins with `ftyp`, or none.
function brandsOf(head: string, size: number): readonly string[] {
  if (!head.startsWith('ftyp', 4)) return [];
  const end = Math.min(size, head.length);
  const brands = [head.slice(8, 12)];
  for (let at = 16; at + 4 <= end; at += 4) brands.push(head.slice(at, at + 4));
  return brands;
}

function identifyContainer(path: string, brands: readonly string[]): PictureFormat {
  if (brands.includes('avif') || brands.includes('avis')) return 'avif';
  if (brands.some((brand) => heifBrands.includes(brand))) {
    throw new TextureError('unsupported-format', `${path} is HEIC, which is not read`, { hint });
  }
  throw new TextureError('not-a-picture', `${path} holds a film or sound, not a picture`);
}

function isText(head: Buffer): boolean {
  // No text is all of one strange letter, as worn memory is.
  if (head.every((byte) => byte >= 0x7f)) return false;
  return head.every((byte) => byte >= 0x20 || (byte >= 0x09 && byte <= 0x0d) || byte === 0x1b);
}

// UTF-16 with its mark: of text, not of bytes that no text has.
function isWide(head: Buffer): boolean {
  const mark = head.toString('latin1', 0, 2);
  if (mark !== '\xff\xfe' && mark !== '\xfe\xff') return false;
  const decoder = new TextDecoder(mark === '\xff\xfe' ? 'utf-16le' : 'utf-16be');
  const text = decoder.decode(head.subarray(0, head.length - (head.length % 2)));
  return !/[\0-\x08\x0e-\x1a\ufffd-\uffff]/.test(text);
}

function refuse(path: string, head: string, start: Buffer): TextureError {
  const known = refused.find((magic) => matches(head, magic));
  if (known !== undefined) {
    const message = `${path} is ${known.name}, which is not read`;
    return new TextureError('unsupported-format', message, { hint });
  }
  if (/<svg[\s>]/i.test(head) || head.startsWith('\x1f\x8b')) {
    const what = head.startsWith('\x1f\x8b') ? 'a compressed file' : 'an SVG drawing';
    const message = `${path} is ${what}, not a photo`;
    return new TextureError('unsupported-format', message, { hint });
  }
  if (isWide(start) || isText(start)) {
    return new TextureError('not-a-picture', `${path} holds text, not a picture`);
  }
  return new TextureError('not-a-picture', `${path} is not a picture`, {
    hint: 'JPEG, PNG, WebP, TIFF, AVIF and GIF are read',
  });
}

/**
 * Tell a picture by its bytes, never by its name.
 *
 * @param path - Its name, for messages alone.
 * @param bytes - The whole file, or its first 4096 bytes.
 * @returns What it is.
 * @throws TextureError `unsupported-format` or `not-a-picture`.
 */
export function identifyFormat(path: string, bytes: Buffer): PictureFormat {
  const shown = showPath(path);
  if (bytes.length === 0) throw new TextureError('not-a-picture', `${shown} is empty`);
  const start = bytes.subarray(0, 4096);
  const head = start.toString('latin1');
  const brands = brandsOf(head, start.length < 16 ? 0 : start.readUInt32BE(0));
  if (brands.length > 0) return identifyContainer(shown, brands);
  const raw = refused.find(({ at }) => at === 8);
  const isRaw = raw !== undefined && /^(II|MM)/.test(head) && matches(head, raw);
  const found = read.find((magic) => matches(head, magic));
  const isRiff = found?.name !== 'webp' || head.startsWith('RIFF');
  if (found === undefined || isRaw || !isRiff) throw refuse(shown, head, start);
  return found.name;
}
