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
 * @see CIPA DC-008 (Exif 2.32), 4.6.4: Artist, Copyright
 */
export async function readOwnCredit(path: string): Promise<string | null> {
  const bytes = await readBytes(path, 'photo');
  identifyFormat(path, bytes);
  const sharp = await loadSharp();
  const { exif } = await sharp(bytes, { limitInputPixels: limitsOf('photo').pixels }).metadata();
  const fields = await parseExif(exif, ['Artist', 'Copyright']);
  // Of a photographer and of an editor, with a NUL between them.
  const owners = textOf(fields['Copyright']).split('\0').map(clean);
  const notice = owners.filter((owner) => owner !== '').join('; ');
  const artist = clean(textOf(fields['Artist']));
  const credit = notice.includes(artist) ? notice : [notice, artist].filter(Boolean).join('; ');
  return credit === '' ? null : credit.slice(0, longest);
}

function textOf(field: unknown): string {
  return typeof field === 'string' ? field : '';
}

function clean(text: string): string {
  return text.replace(/\p{Cc}+/gu, ' ').trim();
}
