/** A field of a TIFF's directory. */
export interface Tag {
  /** What it is. */
  readonly id: number;
  /** Its values: whole numbers that fit, rationals as numerator and denominator by turns, or bytes, those of a text ended by a NUL. */
  readonly values: readonly number[] | Uint8Array;
  /** What they are. */
  readonly kind: 'short' | 'long' | 'rational' | 'text' | 'bytes';
}

// TIFF 6.0, section 2: type, bytes of one number.
const kinds = {
  text: { type: 2, size: 1 },
  short: { type: 3, size: 2 },
  long: { type: 4, size: 4 },
  rational: { type: 5, size: 4 },
  bytes: { type: 7, size: 1 },
} as const;

function pack({ values, kind }: Tag): Buffer {
  const { size } = kinds[kind];
  const bytes = Buffer.alloc(values.length * size);
  values.forEach((value: number, i: number) => bytes.writeUIntLE(value, i * size, size));
  return bytes;
}

/**
 * Write a TIFF's one directory, and behind it what does not fit in it.
 *
 * @param tags - In the order of their ids.
 * @param at - Where in the file it will stand: an even number.
 * @returns Its bytes, little-endian.
 * @see TIFF 6.0, section 2: image file directory
 */
export function writeTags(tags: readonly Tag[], at: number): Buffer {
  const head = Buffer.alloc(2 + 12 * tags.length + 4);
  head.writeUInt16LE(tags.length, 0);
  const behind: Buffer[] = [];
  let next = at + head.length;
  tags.forEach((tag, i) => {
    const entry = 2 + 12 * i;
    const bytes = pack(tag);
    head.writeUInt16LE(tag.id, entry);
    head.writeUInt16LE(kinds[tag.kind].type, entry + 2);
    head.writeUInt32LE(tag.values.length / (tag.kind === 'rational' ? 2 : 1), entry + 4);
    if (bytes.length <= 4) {
      bytes.copy(head, entry + 8);
      return;
    }
    head.writeUInt32LE(next, entry + 8);
    const even = Buffer.alloc(bytes.length + (bytes.length % 2));
    bytes.copy(even);
    behind.push(even);
    next += even.length;
  });
  return Buffer.concat([head, ...behind]);
}
