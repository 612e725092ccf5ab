import type { WrittenRows } from '../written-rows.js';
import { TextureError } from '../../errors/texture-error.js';
import { srgbProfile } from '../srgb-profile.js';
import { compressStrips } from './compress-strips.js';
import { planStrips } from './plan-strips.js';
import { type Tag, writeTags } from './write-tags.js';
import type { Piece } from '../formats/format.js';

// Little-endian, and where the directory stands: not known before everything is compressed.
const head = Uint8Array.of(0x49, 0x49, 42, 0, 0, 0, 0, 0);
const directoryAt = 4;
// Offsets are 32 bits.
const mostBytes = 2 ** 32 - 1;

/**
 * Encode a picture as TIFF, strip by strip.
 *
 * @param source - The picture.
 * @yields The file, and at last where its directory stands.
 * @throws TextureError `too-large` where it comes to more than offsets reach.
 * @see TIFF 6.0, sections 2 to 8, 14 and 18, and supplement 2 (Adobe deflate)
 */
export async function* encodeTiff(source: WrittenRows): AsyncGenerator<Piece> {
  const plan = planStrips(source);
  const offsets: number[] = [];
  const lengths: number[] = [];
  let at = head.length;
  yield head;
  for await (const strip of compressStrips(source, plan)) {
    offsets.push(at);
    lengths.push(strip.length);
    at += strip.length;
    if (at + 8 * plan.count > mostBytes) throw tooLarge();
    yield strip;
  }
  if (at % 2 === 1) {
    at++;
    yield Uint8Array.of(0);
  }
  yield writeTags(listTags(source, { rows: plan.rows, offsets, lengths }, await srgbProfile()), at);
  const place = Buffer.alloc(4);
  place.writeUInt32LE(at);
  yield { at: directoryAt, bytes: place };
}

function tooLarge(): TextureError {
  return new TextureError('too-large', 'the picture comes to over 4 GB, more than TIFF can hold', {
    hint: 'write it as .png',
  });
}

interface Strips {
  readonly rows: number;
  readonly offsets: readonly number[];
  readonly lengths: readonly number[];
}

function listTags(
  { width, height, dpi, channels = 3, note }: WrittenRows,
  strips: Strips,
  icc: Uint8Array,
): Tag[] {
  const density = dpi === null ? null : [Math.round(dpi * 1000), 1000];
  return [
    { id: 256, kind: 'long', values: [width] },
    { id: 257, kind: 'long', values: [height] },
    { id: 258, kind: 'short', values: Array.from({ length: channels }, () => 8) },
    // Adobe deflate.
    { id: 259, kind: 'short', values: [8] },
    // RGB.
    { id: 262, kind: 'short', values: [2] },
    ...(note === undefined
      ? []
      : ([{ id: 270, kind: 'text', values: Buffer.from(`${note}\0`, 'latin1') }] as const)),
    { id: 273, kind: 'long', values: strips.offsets },
    { id: 274, kind: 'short', values: [1] },
    { id: 277, kind: 'short', values: [channels] },
    { id: 278, kind: 'long', values: [strips.rows] },
    { id: 279, kind: 'long', values: strips.lengths },
    ...(density === null
      ? []
      : ([
          { id: 282, kind: 'rational', values: density },
          { id: 283, kind: 'rational', values: density },
        ] as const)),
    { id: 284, kind: 'short', values: [1] },
    // To the inch.
    ...(density === null ? [] : ([{ id: 296, kind: 'short', values: [2] }] as const)),
    // Differences to the left.
    { id: 317, kind: 'short', values: [2] },
    // Opacity beside colours that are not multiplied by it.
    ...(channels === 4 ? ([{ id: 338, kind: 'short', values: [2] }] as const) : []),
    { id: 34_675, kind: 'bytes', values: icc },
  ];
}
