import { readTiffText } from './headers/tiff.js';
import { loadSharp } from './load-sharp.js';
import { limitsOf } from './held-limits.js';
import { identifyFormat } from './identify-format.js';
import { parseExif } from './parse-exif.js';
import { readBytes } from './read-bytes.js';

/** More is no name. */
const longest = 200;

/**
 * Read whose a photo is, as its own file says: to be shown to whoever made it, never to be written into a picture.
 *
 * @param path - Of the photo.
 * @returns Its copyright notice, with its maker where that names another; null where it says neither.
 * @throws TextureError when the file cannot be read as a picture.
 * @see CIPA DC-008 (Exif 2.32), 4.6.4: Artist, Copyright; TIFF 6.0, section 8 has the same fields
 */
export async function readOwnCredit(path: string): Promise<string | null> {
  const bytes = await readBytes(path, 'photo');
  const { artist, copyright } = await ownersOf(path, bytes);
  // Of a photographer and of an editor, with a NUL between them.
  const owners = copyright.split('\0').map(clean);
  const notice = owners.filter((owner) => owner !== '').join('; ');
  const maker = clean(artist);
  const credit = notice.includes(maker) ? notice : [notice, maker].filter(Boolean).join('; ');
  return credit === '' ? null : credit.slice(0, longest);
}

interface Owners {
  readonly artist: string;
  readonly copyright: string;
}

async function ownersOf(path: string, bytes: Buffer): Promise<Owners> {
  if (identifyFormat(path, bytes) === 'tiff')
    return { artist: readTiffText(bytes, 315), copyright: readTiffText(bytes, 33_432) };
  const sharp = await loadSharp();
  const { exif } = await sharp(bytes, { limitInputPixels: limitsOf('photo').pixels }).metadata();
  const fields = await parseExif(exif, ['Artist', 'Copyright']);
  return { artist: textOf(fields['Artist']), copyright: textOf(fields['Copyright']) };
}

function textOf(field: unknown): string {
  return typeof field === 'string' ? field : '';
}

function clean(text: string): string {
  return text.replace(/\p{Cc}+/gu, ' ').trim();
}
