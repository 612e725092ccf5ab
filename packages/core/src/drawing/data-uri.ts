import type { DrawingAttribute } from './drawing.js';

/** What an attribute that holds its picture itself says. */
export interface DataUri {
  /** In lower case: `image/png`; empty where none is stated. */
  readonly mediaType: string;
  /** The picture in base64, without blanks; null where it is written another way. */
  readonly base64: string | null;
}

const headLength = 1000;

/**
 * Read an attribute that holds its picture itself. Blanks and line breaks inside are legal, so are
 * upper case and escapes.
 *
 * @param attribute - An `href`.
 * @returns What it says, or null where it names a file or an address.
 * @see RFC 2397; RFC 4648, 4: base64
 */
export function parseDataUri(attribute: DrawingAttribute): DataUri | null {
  const { raw } = attribute;
  if (!/^\s*data:/i.test(raw.slice(0, headLength))) return null;
  const text = raw.includes('&') ? attribute.value : raw;
  const comma = text.slice(0, headLength).indexOf(',');
  const head = (comma === -1 ? text.slice(0, headLength) : text.slice(0, comma)).trim();
  const [mediaType = '', ...parameters] = head
    .slice('data:'.length)
    .toLowerCase()
    .split(';')
    .map((part) => part.trim());
  if (comma === -1 || parameters.at(-1) !== 'base64') {
    return { mediaType, base64: null };
  }
  return { mediaType, base64: unescape(withoutBlanks(text.slice(comma + 1))) };
}

function withoutBlanks(text: string): string {
  return /\s/.test(text) ? text.replace(/\s+/g, '') : text;
}

function unescape(text: string): string | null {
  if (!text.includes('%')) return text;
  try {
    return withoutBlanks(decodeURIComponent(text));
  } catch {
    return null;
  }
}

// A pattern is slow where it is first used, and in one go would be for all of a picture.
const pieceLength = 65_536;

/**
 * Whether base64 is whole: only its own characters, and as many as make whole bytes.
 *
 * @param base64 - Without blanks; with or without what fills up its last four.
 * @returns Yes where it can be decoded.
 * @see RFC 4648, 4
 */
export function isWholeBase64(base64: string): boolean {
  const digits = countDigits(base64);
  const padding = base64.slice(digits);
  if (digits === 0 || digits % 4 === 1) return false;
  return padding === '' || (/^={1,2}$/.test(padding) && base64.length % 4 === 0);
}

function countDigits(text: string): number {
  for (let at = 0; at < text.length; at += pieceLength) {
    const odd = text.slice(at, at + pieceLength).search(/[^A-Za-z0-9+/]/);
    if (odd !== -1) return at + odd;
  }
  return text.length;
}

/**
 * How many characters bytes take in base64.
 *
 * @param bytes - How many.
 * @returns Four for every three begun.
 * @see RFC 4648, 4
 */
export function base64Length(bytes: number): number {
  return 4 * Math.ceil(bytes / 3);
}
