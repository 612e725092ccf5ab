/** What a PNG says at its head. */
export interface PngHead {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Bits a sample. */
  readonly depth: number;
  /** 0 grey, 2 RGB, 3 by numbers, 4 grey with alpha, 6 RGBA. */
  readonly colourType: number;
  /** Whether its rows are not in their order. */
  readonly isInterlaced: boolean;
}

// After eight bytes of signature, a first chunk of 13 bytes.
const [signature, headEnd] = [8, 33];

/**
 * Read the head of a PNG that was decoded before.
 *
 * @param bytes - A file.
 * @returns What it says; null where it is no PNG.
 * @see PNG Specification, third edition, 5.2 and 11.2.1
 */
export function pngHead(bytes: Uint8Array): PngHead | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < headEnd || view.getUint32(0) !== 0x89504e47) return null;
  return {
    width: view.getUint32(16),
    height: view.getUint32(20),
    depth: view.getUint8(24),
    colourType: view.getUint8(25),
    isInterlaced: view.getUint8(28) !== 0,
  };
}

/** A chunk of a PNG. */
export interface PngChunk {
  /** What it is: four letters. */
  readonly type: string;
  /** What it holds: a view into the file. */
  readonly data: Uint8Array;
}

/**
 * Walk the chunks of a PNG.
 *
 * @param bytes - The file.
 * @yields Them, in the order in which they stand.
 * @see PNG Specification, third edition, 5.3
 */
export function* pngChunks(bytes: Uint8Array): Generator<PngChunk, void> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = signature; at + 12 <= bytes.length;) {
    const length = view.getUint32(at);
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    yield { type, data: bytes.subarray(at + 8, at + 8 + length) };
    at += 12 + length;
  }
}
