import type { DrawingEncoding } from './decode-drawing.js';

const pieceLength = 1_000_000;
const leastLength = 100_000;

/**
 * Write a drawing's text as bytes, the way it came.
 *
 * @param pieces - The text, in order; new ones in ASCII.
 * @param encoding - How it came.
 * @yields Its bytes, piece by piece.
 */
export function* encodeDrawing(
  pieces: Iterable<string>,
  encoding: DrawingEncoding,
): Generator<Uint8Array> {
  const encode = encoderOf(encoding.label);
  if (encoding.marked) yield encode('\ufeff');
  let held: string[] = [];
  let length = 0;
  for (const piece of pieces) {
    if (piece.length < leastLength) {
      held.push(piece);
      length += piece.length;
      if (length < leastLength) continue;
    }
    // Short ones together: a file is not written word by word.
    if (held.length > 0) yield encode(held.join(''));
    [held, length] = [[], 0];
    if (piece.length < leastLength) continue;
    for (let at = 0; at < piece.length;) {
      const end = endOf(piece, at + pieceLength);
      yield encode(piece.slice(at, end));
      at = end;
    }
  }
  if (held.length > 0) yield encode(held.join(''));
}

// No character of two halves is torn apart.
function endOf(text: string, at: number): number {
  const code = text.charCodeAt(at - 1);
  return code >= 0xd800 && code <= 0xdbff ? at + 1 : at;
}

function encoderOf(label: string): (text: string) => Uint8Array {
  if (label === 'utf-8') {
    const encoder = new TextEncoder();
    return (text) => encoder.encode(text);
  }
  if (label.startsWith('utf-16')) return (text) => encodeUtf16(text, label === 'utf-16le');
  const codes = tableOf(label);
  return (text) => encodeSingle(text, codes);
}

function encodeUtf16(text: string, littleEndian: boolean): Uint8Array {
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(i * 2, text.charCodeAt(i), littleEndian);
  return bytes;
}

// What each byte means, turned round.
function tableOf(label: string): ReadonlyMap<number, number> {
  const decoder = new TextDecoder(label);
  const codes = new Map<number, number>();
  for (let byte = 255; byte >= 0; byte--) {
    codes.set(decoder.decode(Uint8Array.of(byte)).charCodeAt(0), byte);
  }
  return codes;
}

function encodeSingle(text: string, codes: ReadonlyMap<number, number>): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = codes.get(text.charCodeAt(i)) ?? 0x3f;
  return bytes;
}
