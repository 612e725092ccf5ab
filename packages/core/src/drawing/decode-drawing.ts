import { BadDrawing } from './bad-drawing.js';

/** How a drawing's text is written as bytes. */
export interface DrawingEncoding {
  /** As the encoding standard calls it: `utf-8`, `utf-16le`, `utf-16be`, `windows-1252`. */
  readonly label: string;
  /** Whether a byte-order mark stands before it. */
  readonly marked: boolean;
}

/** A drawing's text, and how to write it back. */
export interface DrawingText {
  /** Without the byte-order mark. */
  readonly text: string;
  /** How it was written. */
  readonly encoding: DrawingEncoding;
}

// Written by many bytes a character: nothing here writes those back.
const manyBytes = /^(gb|big5|euc-|iso-2022|shift_jis|x-user-defined|replacement)/;

const saveAsUtf8 = { hint: 'save it as UTF-8' };

/**
 * Turn the bytes of a drawing into text, and refuse what is not written as it says.
 *
 * @param bytes - The file.
 * @returns Its text, and how to write it back.
 * @throws BadDrawing when the bytes are no text, or of an encoding that is not written back.
 * @see XML 1.0, fifth edition, 4.3.3 and appendix F; the WHATWG Encoding Standard
 */
export function decodeDrawing(bytes: Uint8Array): DrawingText {
  if (bytes.length === 0) throw new BadDrawing('is empty');
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) {
    throw new BadDrawing('is a drawing that was compressed twice', {
      hint: 'save it as plain SVG',
    });
  }
  const encoding = findEncoding(bytes);
  try {
    const text = new TextDecoder(encoding.label, { fatal: true }).decode(bytes);
    return { text, encoding };
  } catch (cause) {
    const message = `holds bytes that are no ${encoding.label.toUpperCase()} text`;
    throw new BadDrawing(message, { cause });
  }
}

// Byte-order marks, then the two bytes of a `<` without one.
const starts: readonly (readonly [start: string, encoding: DrawingEncoding])[] = [
  ['\xef\xbb\xbf', { label: 'utf-8', marked: true }],
  ['\xff\xfe', { label: 'utf-16le', marked: true }],
  ['\xfe\xff', { label: 'utf-16be', marked: true }],
  ['<\0', { label: 'utf-16le', marked: false }],
  ['\0<', { label: 'utf-16be', marked: false }],
];

function findEncoding(bytes: Uint8Array): DrawingEncoding {
  const head = String.fromCharCode(...bytes.subarray(0, 3));
  const known = starts.find(([start]) => head.startsWith(start));
  return known?.[1] ?? { label: declaredLabel(bytes), marked: false };
}

function declaredLabel(bytes: Uint8Array): string {
  const head = String.fromCharCode(...bytes.subarray(0, 256));
  const declared = /^<\?xml\s[^>]*?\sencoding\s*=\s*["']([A-Za-z][\w.:-]*)["']/.exec(head)?.[1];
  if (declared === undefined) return 'utf-8';
  const label = labelOf(declared);
  if (label === null) {
    throw new BadDrawing(`says that it is written in ${declared}, which is not known`, saveAsUtf8);
  }
  if (label.startsWith('utf-16')) {
    throw new BadDrawing(`says that it is written in ${declared}, and is not`, saveAsUtf8);
  }
  if (manyBytes.test(label)) {
    throw new BadDrawing(`is written in ${declared}, which is not read`, saveAsUtf8);
  }
  return label;
}

function labelOf(name: string): string | null {
  try {
    return new TextDecoder(name).encoding;
  } catch {
    return null;
  }
}
